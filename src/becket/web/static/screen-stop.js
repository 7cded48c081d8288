/*
 * STOP: what must hold before anybody walks away, the tag, and coming back.
 *
 * In:    the scene.
 * Out:   the screens; who is told; what was found on coming back.
 * Never: what is remembered, shown before the person has gone and looked.
 */

import { element } from "./element.js";
import { action, itemNow, line, show, stopKey, title } from "./screen.js";
import { drawFields } from "./screen-pad.js";
import { word } from "./words.js";

const STANDS = ["on the ground", "hangs", "away"]; // where a block can be found, as guide/leave.py says it

/**
 * Ask whether to stop here, and say what must hold first.
 * @param {import("./screen.js").Scene} scene
 */
export function drawStop(scene) {
    const texts = leaveTexts(scene);
    show(scene, [
        title(word("run.stop.ask")),
        line(word("run.stop.before")),
        element("ul", { class: "list leave" }, ...texts.map((text) => element("li", { text }))),
    ], [
        action(word("run.stop.left_safe"), () => scene.go({ stopping: "told", page: 0, values: {} })),
        action(word("run.go_on"), () => scene.go({ stopping: null }), "action second"),
    ]);
}

function leaveTexts(scene) {
    const at = itemNow(scene) ?? scene.script.items.at(-1);
    return at.leave.length ? at.leave : [word("run.stop.leave_unknown")];
}

/**
 * Ask who is told, then keep that the change is left.
 * @param {import("./screen.js").Scene} scene
 */
export function drawTold(scene) {
    const names = scene.people.filter((one) => one.role === "supervisor").map((one) => one.name);
    drawFields(scene, {
        item: null,
        fields: [{ name: "told", kind: "name", prompt: word("run.stop.told"), names }],
        top: [],
        done: word("run.stop.keep"),
        keep: ({ told }) => scene.write("stopped", { item: scene.state.at, left: leaveTexts(scene), told }),
    });
}

/**
 * Show the tag for the cab.
 * @param {import("./screen.js").Scene} scene
 */
export function drawStopped(scene) {
    show(scene, [
        element("h1", { class: "plate inverse tag", tabindex: "-1", text: word("run.tag") }),
        line(word("run.tag.hang")),
        line(word("run.tag.told", { name: scene.state.stop.told })),
    ], [
        action(word("run.resume.begin"), () => scene.go({ resuming: true })),
        action(word("run.paper"), () => scene.go({ resuming: true, paper: true }), "action second"),
    ]);
}

/**
 * Send whoever comes back to the crane, before anything is asked or shown.
 * @param {import("./screen.js").Scene} scene
 */
export function drawReturn(scene) {
    show(scene, [
        title(stoppedAgo(scene, itemNow(scene))),
        line(word("run.resume.look"), "say"),
        line(word("run.resume.then")),
    ], [stopKey(scene), action(word("run.resume.enter"), () => scene.go({ looked: true, page: 0, values: {} }))]);
}

/**
 * Ask what is found on coming back, before what was kept is shown.
 * @param {import("./screen.js").Scene} scene
 */
export function drawResume(scene) {
    const paper = Boolean(scene.local.paper);
    const fields = resumeFields(scene);
    drawFields(scene, {
        item: null,
        fields: paper ? [...paperFields(scene), ...fields] : fields,
        top: [],
        done: word("run.resume.compare"),
        keep: (values) => comeBack(scene, values, paper),
    });
}

async function comeBack(scene, values, paper) {
    const { sheet, by, ...found } = values;
    if (paper) await scene.write("went_on_from_paper", { item: scene.state.at, sheet, by }, { stay: true });
    await scene.write("resumed", found);
}

function stoppedAgo(scene, item) {
    const minutes = Math.round((Date.now() - Date.parse(scene.state.stop.at)) / 60_000);
    const n = item?.number ?? null;
    const long = minutes >= 120 ? word("run.resume.hours", { h: Math.round(minutes / 60) }) : word("run.resume.minutes", { n: minutes });
    const ago = Number.isFinite(minutes) && minutes >= 0 ? long : word("run.resume.unknown_time");
    return n === null ? word("run.resume.title_pause", { ago }) : word("run.resume.title", { n, ago });
}

function paperFields() {
    return [
        { name: "sheet", kind: "number", prompt: word("run.paper.step"), unit: null },
        { name: "by", kind: "name", prompt: word("run.paper.by") },
    ];
}

/** The three questions; the plates are the same at every step, so that they tell nothing of this step. */
function resumeFields(scene) {
    const kept = scene.script.items.map((item) => item.resume).filter(Boolean);
    return [
        { name: "keepers_out", kind: "count", prompt: word("run.resume.keepers_out") },
        { name: "last_sheave", kind: "choice", prompt: word("run.resume.last_sheave"), choices: sheavesOf(scene, kept) },
        { name: "block", kind: "choice", prompt: word("run.resume.block"), choices: STANDS },
    ];
}

function sheavesOf(scene, kept) {
    const places = ["head", "block"].flatMap((place) => {
        const field = scene.script.items.flatMap((item) => item.fields).find((one) => one.place === place);
        return (field?.sheaves ?? []).map((n) => `${place} ${n}`);
    });
    const others = [...new Set(["none", ...kept.map((one) => one.last_sheave)])].filter((one) => !places.includes(one)).sort();
    return [...places, ...others];
}

/**
 * Show how what was found compares with what was kept, and where it goes on.
 * @param {import("./screen.js").Scene} scene
 */
export function drawResumed(scene) {
    const { differs, why } = scene.state.resume;
    const isKept = differs.length === 0;
    show(scene, [
        title(word(isKept ? "run.as_kept" : "run.not_as_kept")),
        ...why.map((text) => line(text, "say")),
        !isKept && line(word("run.not_as_kept.find_out"), "say"),
    ], [stopKey(scene), action(word("run.go_on"), () => scene.go({ answered: true }))]);
}
