/*
 * After both have counted: the same, or both values side by side.
 *
 * In:    the scene; what the fold compared.
 * Out:   the screen; count again, follow by hand, stop.
 * Never: a way past two counts that differ; one value drawn larger than the other.
 */

import { element } from "./element.js";
import { figures, unitOf } from "./pad.js";
import { action, line, show, title } from "./screen.js";
import { word } from "./words.js";

/**
 * Return what a person entered, in words.
 * @param {object} scene
 * @param {{item: string, role: string, values: object}} entry
 * @returns {string}
 */
function saw(scene, { item, values }) {
    if (values.sheaves !== undefined && values.ends_on !== undefined) {
        return word("run.differ.at_head", { sheaves: shown(values.sheaves), place: values.ends_on, n: figureOf(values) });
    }
    if (values.ropes !== undefined && values.block_sheaves !== undefined) {
        return word("run.differ.at_block", { sheaves: shown(values.block_sheaves), n: values.ropes });
    }
    const { fields } = scene.script.items.find((one) => one.id === item);
    return Object.entries(values).map(([name, value]) => {
        const field = fields.find((one) => one.name === name);
        return `${field?.prompt ?? name}: ${shown(value, field)}`;
    }).join(". ");
}

/**
 * Return a value as a person reads it.
 * @param {*} value
 * @param {object} [field]
 * @returns {string}
 */
export function shown(value, field) {
    if (Array.isArray(value)) return value.length ? value.join(", ") : word("run.pad.none");
    return typeof value === "number" ? `${figures(value)} ${unitOf(field ?? {})}`.trim() : String(value);
}

/** The one figure of an entry, where it has one: falls of a count, else its only number. */
function figureOf(values) {
    if (values.sheaves !== undefined && values.ends_on !== undefined) {
        return String(2 * values.sheaves.length - (values.ends_on === "block" ? 1 : 0));
    }
    const first = values.ropes ?? values.falls ?? (Object.keys(values).length === 1 ? Object.values(values)[0] : null);
    return typeof first === "number" && figures(first).length < 3 ? figures(first) : null;
}

/** One plate a person: one figure, or everything that this person entered. */
function side(scene, entries, figure) {
    const [{ role, values }] = entries;
    const kind = values.sheaves !== undefined ? "sheaves" : values.ropes !== undefined ? "ropes" : null;
    const words = () => entries.map((entry) => element("span", { class: "differ-words", text: saw(scene, entry) }));
    return element("div", {}, element("strong", { text: word(`run.plate.${role}`) }),
        kind && figure && element("span", { class: "name", text: word(`run.differ.${kind}`) }),
        ...(figure ? [element("span", { class: "differ-value", text: figure })] : words()));
}

/**
 * Show that the counts differ, or are equal on a wrong path.
 * @param {import("./screen.js").Scene} scene
 */
export function drawDiffer(scene) {
    const { differ } = scene.state;
    const entries = [...differ.entries].sort((one, other) => (one.role < other.role ? 1 : -1));
    const all = entries.map((entry) => figureOf(entry.values));
    const figure = all.every((one) => one !== null) ? all : all.map(() => null);
    const isEqual = figure[0] !== null && figure.every((one) => one === figure[0]);
    const isAlone = entries.length === 1;
    const between = element("span", { class: "between", text: isEqual ? "=" : "≠" });
    const roles = [...new Set(entries.map((entry) => entry.role))];
    const isFigure = figure[0] !== null && roles.length === entries.length;
    const kind = isAlone ? " alone" : isFigure ? "" : " words";
    const plates = roles.map((role, at) => side(scene, entries.filter((one) => one.role === role), isFigure ? figure[at] : null));
    const seen = isFigure && entries.map((entry) => element("p", {},
        element("b", { text: word("run.differ.saw", { Role: word(`run.Role.${entry.role}`) }) }), ` ${saw(scene, entry)}`));
    show(scene, [
        title(differTitle(isAlone, isEqual && isFigure, figure[0])),
        element("div", { class: `two-values${kind}` }, plates[0], !isAlone && between, ...plates.slice(1)),
        (isAlone || isEqual || !isFigure) && line(differ.why),
        ...(seen || []),
        element("p", {}, element("b", { text: word("run.differ.nobody_moves") }),
            ` ${word(isAlone ? "run.differ.count_again_alone" : "run.differ.again_alone")}`),
    ], againOrStop(scene, differ));
}

function differTitle(isAlone, isEqual, value) {
    if (isAlone) return word("run.differ.alone");
    return isEqual ? word("run.differ.both", { value }) : word("run.differ.title");
}

function stopRun(scene) {
    return action(word(`run.differ.stop_${scene.script.kind}`), () => scene.go({ stopping: "ask" }), "action second");
}

function againOrStop(scene, differ) {
    const again = () => scene.write("count_again", { group: differ.group, round: differ.round });
    return [
        action(word(differ.entries.length === 1 ? "run.differ.again_one" : "run.differ.again"), again),
        stopRun(scene),
    ];
}

/**
 * Show that the rope is followed by hand, both together.
 * @param {import("./screen.js").Scene} scene
 */
export function drawFollow(scene) {
    const { differ } = scene.state;
    const [first, ...rest] = differ.entries.map((entry) => figureOf(entry.values));
    const isSame = first !== null && rest.every((one) => one === first);
    const followed = () => scene.write("followed_by_hand", { group: differ.group, round: differ.round });
    show(scene, [
        title(word(isSame ? "run.follow.same" : "run.follow.title")),
        line(word("run.follow.text"), "say"),
        line(word("run.differ.nobody_moves"), "say"),
        line(differ.why),
    ], [
        action(word("run.follow.done"), followed),
        stopRun(scene),
    ]);
}

/**
 * Show that both found the same.
 * @param {import("./screen.js").Scene} scene
 */
export function drawAgree(scene) {
    const kept = scene.local.agreed;
    const group = scene.script.groups.find((one) => one.name === kept.group);
    const falls = figureOf(kept.entries[0].values);
    const compare = group.compare;
    let said = word("run.agree.same", { what: group.label });
    if (compare === "falls" && falls) said = word("run.agree.falls", { n: falls });
    if (compare === "indicator" && falls) said = word("run.agree.indicator", { n: falls });
    show(scene, [title(said), line(word("run.agree.alone"))], [action(word("run.go_on"), () => scene.go({ agreed: null }))]);
}
