/*
 * The end of a run: each signs own values with own digits; then it is closed.
 *
 * In:    the scene.
 * Out:   the screens; two signatures.
 * Never: the other person's values on the screen of a signature; a signature while something is missing.
 */

import { element } from "./element.js";
import { whatIsMissing } from "./fold-closing.js";
import { action, fallsOf, line, nameOf, show, stopKey, title, whose } from "./screen.js";
import { shown } from "./screen-differ.js";
import { drawDigits } from "./screen-handover.js";
import { signsHere } from "./two-phones.js";
import { word } from "./words.js";

/**
 * Show what is missing, or the signature that is next.
 * @param {import("./screen.js").Scene} scene
 */
export function drawSign(scene) {
    const missing = missingBesideSignatures(scene);
    if (missing.length) {
        drawMissing(scene, missing);
        return;
    }
    const role = signsHere(scene);
    if (scene.local.signer === role) {
        drawOwnValues(scene, role);
        return;
    }
    const names = { role: word(`run.role.${role}`), Role: word(`run.Role.${role}`) };
    drawDigits(scene, {
        role,
        hatched: false,
        title: [word("run.give", names)],
        text: word("run.sign.text", names),
        ask: word("run.your_digits_sign", names),
        opened: () => scene.go({ signer: role }),
        foot: [stopKey(scene)],
    });
}

function missingBesideSignatures({ script, state }) {
    return whatIsMissing(script, { ...state, signed: { operator: {}, rigger: {} } });
}

function drawMissing(scene, missing) {
    const rows = missing.map((text) => element("li", { text }));
    show(scene, [title(word("run.missing")), element("ul", { class: "list leave" }, ...rows)], [stopKey(scene)]);
}

function drawOwnValues(scene, role) {
    const person = scene.run[role];
    const own = scene.script.items.filter((item) => item.fields.length && scene.state.items[item.id]?.by === person);
    const values = Object.fromEntries(own.map((item) => [item.id, scene.state.items[item.id].values]));
    const other = role === "operator" ? "rigger" : "operator";
    const forYou = scene.script.items.filter((item) => item.who === role && isEnteredBy(scene, item, scene.run[other]));
    const sign = () => scene.write("signed", { role, values }, { person, role });
    show(scene, [
        whose(role, [nameOf(scene, person)]),
        title(word("run.sign.own", { name: nameOf(scene, person) })),
        element("dl", { class: "facts" }, ...own.flatMap((item) => rowsOf(scene, item, item.who === other ? other : null))),
        forYou.length > 0 && line(word("run.sign.for_you", { name: nameOf(scene, scene.run[other]) }), "say"),
        forYou.length > 0 && element("dl", { class: "facts" }, ...forYou.flatMap((item) => rowsOf(scene, item, null))),
    ], [stopKey(scene), action(word("run.sign.do"), sign)]);
}

/** An entry of one person's step that was made while the other one held the phone; never a blind one. */
function isEnteredBy({ state }, item, person) {
    return item.fields.length > 0 && !item.blind && state.items[item.id]?.by === person;
}

function rowsOf({ state }, item, enteredFor) {
    const { values } = state.items[item.id];
    const prompt = (field) => (enteredFor === null ? field.prompt
        : word("run.sign.for", { prompt: field.prompt, role: word(`run.role.${enteredFor}`) }));
    return item.fields.map((field) => element("div", {},
        element("dt", { text: prompt(field) }), element("dd", { text: shown(values[field.name] ?? "", field) })));
}

/**
 * Show that the run is closed and where its record is.
 * @param {import("./screen.js").Scene} scene
 */
export function drawClosed(scene) {
    const { state, run, events } = scene;
    const waiting = events.filter((one) => one.number === null).length;
    const at = (state.ended ?? "").slice(11, 16);
    const falls = state.result ? fallsOf(state.result) : null;
    const found = word(falls === null ? "run.closed.no_falls" : falls === "1" ? "run.closed.falls_one" : "run.closed.falls", { n: falls });
    show(scene, [
        title(found),
        line(word("run.closed.signed", { at })),
        line(waiting ? word("run.closed.kept", { n: waiting }) : word("run.closed.sent"), "plate"),
    ], [
        element("a", { class: "action", href: `/c/${run.crane}/record/${run.id}`, text: word("run.closed.record") }),
        element("a", { class: "action second", href: `/c/${run.crane}/now`, text: word("run.closed.now") }),
    ]);
}
