/*
 * A step: who, what the other one does, the instruction, the picture, what to look for, one action.
 *
 * In:    the scene and the item that is asked now.
 * Out:   the screen.
 * Never: a blind item; a value that stands there before it was read.
 */

import { element, picture } from "./element.js";
import { action, fallsOf, itemNow, line, nameOf, placeInPause, show, stopKey, title, whose } from "./screen.js";
import { sign } from "./sign.js";
import { word } from "./words.js";

/**
 * Show a step.
 * @param {import("./screen.js").Scene} scene
 */
export function drawStep(scene) {
    const item = itemNow(scene);
    const go = () => (item.fields.length ? scene.go({ view: "pad" }) : scene.write("entered", enteredNothing(scene, item)));
    const head = element("div", { class: "headline" }, sign(item.sign), title(item.do));
    show(scene, [
        whose(item.who, [item.other, placeInPause(scene, item)]),
        restarted(scene, item),
        head,
        ...pictures(scene, item),
        item.full && line(item.full, "look"),
        item.look_for && element("p", { class: "look" }, element("b", { text: word("run.look") }), ` ${item.look_for}`),
        item.moves && line(word("run.put_away"), "say put-away"),
        stepOf(scene, item),
    ], [stopKey(scene), action(item.action, go)]);
}

function enteredNothing(scene, item) {
    return { item: item.id, round: scene.state.items[item.id].round, values: {} };
}

/** Say that a pause was broken off, at its first item. */
export function restarted(scene, item) {
    const part = scene.script.items.filter((one) => one.part === item.part);
    const again = item.part.startsWith("pause-") && part[0] === item && (scene.state.rounds[item.part] ?? 1) > 1;
    return again && line(word("run.pause_again"), "hatch");
}

function stepOf(scene, item) {
    if (item.number === null) return null;
    const last = Math.max(...scene.script.items.map((one) => one.number ?? 0));
    return line(word("run.step_of", { n: item.number, of: last }), "small");
}

function pictures(scene, item) {
    const name = scene.local.turned ? item.turned : item.picture;
    const drawing = name && scene.script.pictures[name] ? picture(scene.script.pictures[name]) : null;
    if (!drawing) return [];
    const other = { cab: "rigger", rigger: "cab" }[item.view] ?? item.view;
    const seen = word(`run.view.${scene.local.turned ? other : item.view}`);
    const turn = item.turned && action(word("run.turn"), () => scene.go({ turned: !scene.local.turned }), "turn");
    return [
        element("div", { class: "view" }, element("b", { text: item.view ? seen : "" }), turn),
        element("figure", { class: "picture" }, drawing),
    ];
}

/**
 * Show what is known before the first step.
 * @param {import("./screen.js").Scene} scene
 */
export function drawBefore(scene) {
    const { script, run } = scene;
    const what = script.kind === "change"
        ? word("run.before.change", { before: fallsOf(script.before), after: fallsOf(script.after) })
        : word("run.before.count");
    const facts = [
        [word("run.leads"), credentials(scene, run.operator)],
        [word("run.helps"), credentials(scene, run.rigger)],
        ...script.facts,
    ];
    const rows = facts.map(([name, value]) => element("div", {}, element("dt", { text: name }), element("dd", { text: value })));
    show(scene, [
        title(what),
        element("dl", { class: "facts" }, ...rows),
        ...script.warnings.map((text) => line(text, "plate")),
    ], [stopKey(scene), action(word("run.before.begin"), () => scene.go({ begun: true }))]);
}

function credentials(scene, id) {
    const person = scene.people.find((one) => one.id === id);
    const licence = person?.licence || word("run.no_licence");
    return `${nameOf(scene, id)}, ${licence}`;
}

/**
 * Show that what was entered is not what is wanted. It stays until it is answered.
 * @param {import("./screen.js").Scene} scene
 */
export function drawWrong(scene) {
    const item = itemNow(scene);
    const last = scene.state.items[item.id].attempts.at(-1);
    show(scene, [
        whose(item.who, [placeInPause(scene, item)]),
        title(last.why || word("run.wrong")),
        line(word("run.wrong_kept")),
    ], [stopKey(scene), action(word("run.again"), () => scene.go({ answered: true }))]);
}

/**
 * Show the run to whoever is not at the crane: nothing is entered here.
 * @param {import("./screen.js").Scene} scene
 */
export function drawOffice(scene) {
    const { script, state } = scene;
    const rows = script.items.filter((item) => item.number !== null).map((item) => {
        const done = state.items[item.id]?.done ? word("run.office.done") : "";
        const cells = [item.number, item.do, word(`run.role.${item.who}`), done];
        return element("tr", { class: item.id === state.at ? "this" : null }, ...cells.map((text) => element("td", { text })));
    });
    const names = ["step", "do", "who", "state"].map((name) => element("th", { text: word(`run.office.${name}`) }));
    show(scene, [
        title(word(`run.office.${state.screen === "closed" ? "closed" : "open"}`)),
        line(word("run.office.read_only"), "plate"),
        element("table", { class: "rows" }, element("thead", {}, element("tr", {}, ...names)), element("tbody", {}, ...rows)),
    ], []);
}
