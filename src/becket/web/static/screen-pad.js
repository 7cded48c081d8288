/*
 * The pad page of an item: what is asked, without its number; the keys; one action that reads the choice back.
 *
 * In:    the scene and the item that is asked now.
 * Out:   the screen; what was entered.
 * Never: a value that nobody chose; on a blind screen a picture, a number, the other's answer.
 */

import { randomName } from "./db.js";
import { element } from "./element.js";
import { brickPad, countPad, fallsPad, namePad, numberPad, platePad, timePad, writingPad } from "./pad.js";
import { action, itemNow, line, nameOf, placeInPause, roundOf, show, stopKey, title, whose } from "./screen.js";
import { restarted } from "./screen-step.js";
import { word } from "./words.js";

const SHORT = ["sheaves", "choice"]; // two of these stand on one page

/** One kind of field, one pad. */
const PADS = {
    falls: (field, scene, changed) => fallsPad(changed),
    count: (field, scene, changed) => countPad(changed),
    number: (field, scene, changed) => numberPad({ unit: field.unit }, changed),
    sheave: (field, scene, changed) => brickPad({ sheaves: field.sheaves, many: false }, changed),
    sheaves: (field, scene, changed) => brickPad({ sheaves: field.sheaves, many: true }, changed),
    choice: (field, scene, changed) => platePad([...new Set([...field.choices, ...(field.stops ?? [])])].map((value) => ({ value, label: value })), changed),
    text: (field, scene, changed) => writingPad(field.prompt, changed),
    name: (field, scene, changed) => namePad(field.names ?? atTheCrane(scene), field.prompt, changed),
    time: (field, scene, changed) => timePad(changed),
};

function atTheCrane(scene) {
    return [scene.run.operator, scene.run.rigger].map((id) => nameOf(scene, id));
}

/**
 * Return the fields of an item as they stand on pages: short ones two on a page.
 * @param {object[]} fields
 * @returns {object[][]}
 */
export function pagesOf(fields) {
    const pages = [];
    for (const field of fields) {
        const last = pages.at(-1);
        const fits = last?.length === 1 && SHORT.includes(field.kind) && SHORT.includes(last[0].kind) && last[0] !== field;
        if (fits && field.kind !== last[0].kind) last.push(field);
        else pages.push([field]);
    }
    return pages;
}

/**
 * Show what one person looks at alone, before the keys stand.
 * @param {import("./screen.js").Scene} scene
 */
export function drawAlone(scene) {
    const item = itemNow(scene);
    show(scene, [
        whose(item.who, [], true),
        title(item.do),
        item.full && line(item.full, "look"),
        item.look_for && element("p", { class: "look" }, element("b", { text: word("run.look") }), ` ${item.look_for}`),
        line(word("run.nobody_tells")),
    ], [stopKey(scene), action(item.action, () => scene.go({ view: "pad" }))]);
}

/**
 * Show the pad page of the item that is asked now.
 * @param {import("./screen.js").Scene} scene
 */
export function drawPad(scene) {
    const item = itemNow(scene);
    drawFields(scene, {
        item,
        fields: item.fields,
        top: [
            whose(item.who, [placeInPause(scene, item)], item.blind),
            !item.blind && restarted(scene, item),
        ],
        done: item.blind ? word("run.hide") : word("run.enter"),
        keep: (values) => scene.write("entered", { item: item.id, round: roundOf(scene, item), values, ...(item.blind ? { nonce: randomName() } : {}) }, {
            person: item.blind ? scene.run[item.who] : undefined, role: item.blind ? item.who : undefined,
        }),
    });
}

/**
 * Show fields page by page, then keep what was entered.
 * @param {import("./screen.js").Scene} scene
 * @param {{item: ?object, fields: object[], top: Array, done: string, keep: function(object): void}} how
 */
export function drawFields(scene, how) {
    const pages = pagesOf(how.fields);
    const at = scene.local.page ?? 0;
    const isLast = at === pages.length - 1;
    const button = element("button", { type: "button", class: "action" });
    const missing = element("p", { class: "say", role: "alert" });
    const pads = pages[at].map((field) => ({ field, pad: PADS[field.kind](field, scene, readBack) }));
    function readBack() {
        const ready = pads.every(({ pad }) => pad.read() !== undefined);
        const chosen = ready ? element("span", { text: pads.map(({ pad }) => pad.word()).join(" · ") }) : null;
        const next = element("span", { text: isLast ? how.done : word("run.next") });
        button.replaceChildren(...[chosen, next].filter(Boolean));
        if (ready) missing.textContent = "";
    }
    button.addEventListener("click", (event) => {
        if (event.detail > 1) return;
        if (pads.some(({ pad }) => pad.read() === undefined)) {
            missing.textContent = word("run.nothing_entered");
            missing.scrollIntoView({ block: "center" });
            return;
        }
        const values = { ...scene.local.values };
        pads.forEach(({ field, pad }) => { values[field.name] = pad.read(); });
        if (isLast) how.keep(values);
        else scene.go({ values, page: at + 1 });
    });
    readBack();
    const asked = pads.map(({ field, pad }, index) => element("section", { class: "asked", "data-field": field.name },
        index === 0 ? title(field.prompt) : element("h2", { text: field.prompt }), hint(how.item, field, index), pad.node));
    const place = pages.length > 1 && element("span", { class: "hands", text: word("run.page_of", { at: at + 1, of: pages.length }) });
    const row = how.top.find((one) => one && one.classList.contains("who")) ?? element("p", { class: "who" });
    if (place) row.append(place);
    show(scene, [!how.top.includes(row) && row, ...how.top, ...asked, missing], [stopKey(scene), button]);
}

function hint(item, field, index) {
    if (field.place === "head" || field.place === "block") return line(word(`run.numbered.${field.place}`), "small");
    if (index > 0 || !item) return null;
    if (item.blind) return line(word("run.nobody_tells"));
    return item.part.startsWith("pause-") && item.look_for ? line(item.look_for) : null;
}
