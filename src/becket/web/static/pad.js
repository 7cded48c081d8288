/*
 * The pads on which a value is entered. The same keys for every crane, so that a pad gives nothing away.
 *
 * In:    which keys; what to do when the choice changes.
 * Out:   {node, read(), word()}: the element, the value or undefined, the value as a word to read back.
 * Never: a value that stands there before somebody chose it; a value that is kept here.
 */

import { element } from "./element.js";
import { hasWord, word } from "./words.js";

/** @typedef {{node: HTMLElement, read: function(): *, word: function(): string}} Pad */

/**
 * Return a whole number as a word up to twelve, as figures over it.
 * @param {number} value
 * @returns {string}
 */
export function spoken(value) {
    return Number.isInteger(value) && value >= 0 && value <= 12 ? word(`run.number.${value}`) : figures(value);
}

/**
 * Return a number as figures, the minus as a minus.
 * @param {number|string} value
 * @returns {string}
 */
export function figures(value) {
    return String(value).replace("-", "−");
}

/**
 * Return the unit of a field as it is shown.
 * @param {{unit?: string|null}} field
 * @returns {string}
 */
export function unitOf({ unit }) {
    if (!unit) return "";
    return hasWord(`run.unit.${unit}`) ? word(`run.unit.${unit}`) : unit;
}

/** A key acts on release inside the key: that is what a click is. */
function key(label, act, extra = {}) {
    return element("button", { type: "button", class: "key", text: label, click: act, "data-key": label, ...extra });
}

/**
 * Return a pad of which one key at a time is chosen.
 * @param {number[]} values
 * @param {function(): void} changed
 * @param {HTMLElement[]} [more] further keys
 * @returns {Pad}
 */
export function onePad(values, changed, more = []) {
    let chosen;
    const keys = values.map((value) => key(figures(value), () => choose(value), { "aria-pressed": "false" }));
    function choose(value) {
        chosen = value;
        keys.forEach((one, index) => one.setAttribute("aria-pressed", String(values[index] === value)));
        changed();
    }
    const node = element("div", { class: "keys", role: "group" }, ...keys, ...more);
    return { node, read: () => chosen, word: () => spoken(chosen) };
}

/**
 * Return the pad of the falls and of the ropes: 1 to 12.
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function fallsPad(changed) {
    return onePad([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], changed);
}

/**
 * Return the pad of a count that may be none: 0 to 10, and figures for more.
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function countPad(changed) {
    const node = element("div", { class: "pad-change" });
    const over = key("more", () => {
        inner = numberPad({ whole: true }, changed);
        node.replaceChildren(inner.node);
        changed();
    });
    over.replaceChildren(element("span", { class: "long", text: word("run.pad.more") }));
    let inner = onePad([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10], changed, [over]);
    node.append(inner.node);
    return { node, read: () => inner.read(), word: () => inner.word() };
}

/**
 * Return the pad of a number: figures, point and minus.
 * @param {{unit?: string|null, whole?: boolean}} how
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function numberPad(how, changed) {
    let typed = "";
    const unit = unitOf(how);
    const shown = element("output", { class: "reading", "aria-live": "polite" });
    function type(next) {
        if (next.replace("-", "").length > 7) return;
        typed = next;
        shown.textContent = figures(typed);
        changed();
    }
    const add = (sign) => () => type(typed + sign);
    const signed = () => type(typed.startsWith("-") ? typed.slice(1) : `-${typed}`);
    const dotted = () => (typed.includes(".") ? undefined : type(`${typed}.`));
    const keys = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((one) => key(String(one), add(String(one))));
    keys.push(key("−", signed, { "aria-label": word("run.pad.minus") }), key("0", add("0")));
    keys.push(key(".", dotted, { "aria-label": word("run.pad.point") }));
    const back = element("button", {
        type: "button", class: "plain-key", text: word("run.pad.back"), click: () => type(typed.slice(0, -1)),
    });
    const row = element("div", { class: "reading-row" }, shown, element("span", { class: "unit", text: unit }), back);
    const read = () => numberOf(typed, Boolean(how.whole));
    const node = element("div", {}, row, element("div", { class: "keys", role: "group" }, ...keys));
    return { node, read, word: () => (how.whole ? spoken(read()) : `${figures(typed)} ${unit}`.trim()) };
}

function numberOf(typed, whole) {
    if (!/^-?\d+(\.\d+)?$/.test(typed)) return undefined;
    const value = Number(typed) + 0;
    return whole && (!Number.isInteger(value) || value < 0) ? undefined : value;
}

/**
 * Return the pad of a time of day, four figures.
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function timePad(changed) {
    let typed = "";
    const shown = element("output", { class: "reading", "aria-live": "polite" });
    const as = () => (typed.length > 2 ? `${typed.slice(0, 2)}:${typed.slice(2)}` : typed);
    function type(next) {
        if (next.length > 4) return;
        typed = next;
        shown.textContent = as();
        changed();
    }
    const keys = [1, 2, 3, 4, 5, 6, 7, 8, 9, 0].map((one) => key(String(one), () => type(typed + one)));
    const back = element("button", {
        type: "button", class: "plain-key", text: word("run.pad.back"), click: () => type(typed.slice(0, -1)),
    });
    const node = element("div", {}, element("div", { class: "reading-row" }, shown, back),
        element("div", { class: "keys", role: "group" }, ...keys));
    const read = () => (/^([01]\d|2[0-3])[0-5]\d$/.test(typed) ? as() : undefined);
    return { node, read, word: as };
}

/**
 * Return the sheaves as keys in two rows like bricks, odd numbers above: the left to right of the head or block is kept.
 * @param {{sheaves: number[], many: boolean}} how
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function brickPad(how, changed) {
    let chosen = null; // null: nothing said yet
    const rope = word("run.pad.rope");
    const keys = how.sheaves.map((one) => {
        const label = element("span", { text: String(one) });
        const said = element("small", { text: rope, hidden: true });
        const made = key("", () => tap(one), { "aria-pressed": "false", "data-key": one });
        made.append(label, said);
        return made;
    });
    const none = element("button", {
        type: "button", class: "choose", text: word("run.pad.none"), "aria-pressed": "false", "data-key": "none", click: () => tap(null),
    });
    function tap(one) {
        const old = chosen ?? [];
        if (one === null) chosen = [];
        else if (!how.many) chosen = [one];
        else chosen = old.includes(one) ? old.filter((kept) => kept !== one) : [...old, one];
        keys.forEach((made, index) => {
            const on = chosen.includes(how.sheaves[index]);
            made.setAttribute("aria-pressed", String(on));
            made.lastChild.hidden = !(on && how.many);
        });
        none.setAttribute("aria-pressed", String(one === null));
        changed();
    }
    const rows = [1, 0].map((odd) => element("div", { class: "keys brick" }, ...keys.filter((_, at) => how.sheaves[at] % 2 === odd)));
    const node = element("div", { class: "wall", role: "group" }, ...rows, how.many ? none : null);
    const sorted = () => [...chosen].sort((one, other) => one - other);
    const read = () => (chosen === null ? undefined : how.many ? sorted() : chosen[0]);
    return { node, read, word: () => (chosen.length ? sorted().join(", ") : word("run.pad.none")) };
}

/**
 * Return plates with words, of which one is chosen.
 * @param {Array<{value: *, label: string}>} choices
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function platePad(choices, changed) {
    let chosen = -1;
    const plates = choices.map((choice, index) => element("button", {
        type: "button", class: "choose", text: choice.label, "aria-pressed": "false", "data-key": choice.label,
        click: () => {
            chosen = index;
            plates.forEach((one, at) => one.setAttribute("aria-pressed", String(at === index)));
            changed();
        },
    }));
    const long = choices.some((choice) => choice.label.length > 14);
    const node = element("div", { class: long ? "chooses one" : "chooses", role: "group" }, ...plates);
    const read = () => (chosen < 0 ? undefined : choices[chosen].value);
    return { node, read, word: () => (chosen < 0 ? "" : choices[chosen].label) };
}

/**
 * Return a line to write on.
 * @param {string} label said to whoever cannot see the page
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function writingPad(label, changed) {
    const line = element("input", { type: "text", class: "line", autocomplete: "off", maxlength: "200", "aria-label": label });
    line.addEventListener("input", changed);
    const read = () => line.value.trim() || undefined;
    return { node: line, read, word: () => line.value.trim() };
}

/**
 * Return the pad of a name: the people at the crane as plates, a line for anybody else.
 * @param {string[]} names
 * @param {string} label
 * @param {function(): void} changed
 * @returns {Pad}
 */
export function namePad(names, label, changed) {
    const other = word("run.pad.somebody_else");
    const plates = platePad([...names.map((name) => ({ value: name, label: name })), { value: null, label: other }], () => {
        line.node.hidden = plates.read() !== null;
        changed();
    });
    const line = writingPad(label, changed);
    line.node.hidden = true;
    const node = element("div", {}, plates.node, line.node);
    const read = () => (plates.read() === null ? line.read() : plates.read());
    return { node, read, word: () => read() ?? "" };
}

/**
 * Return the pad of a person's four digits: 1 to 9.
 * @param {function(string): void} full called when the fourth is in
 * @returns {{node: HTMLElement, clear: function(): void}}
 */
export function digitsPad(full) {
    let typed = "";
    const dots = [1, 2, 3, 4].map(() => element("span", { class: "dot" }));
    const said = element("span", { class: "only-read" });
    const row = element("p", { class: "dots", role: "status" }, said, ...dots);
    function show() {
        dots.forEach((dot, at) => dot.classList.toggle("in", at < typed.length));
        said.textContent = word("run.digits.typed", { n: typed.length });
    }
    function type(one) {
        if (typed.length >= 4) return;
        typed += one;
        show();
        if (typed.length === 4) full(typed);
    }
    const keys = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((one) => key(String(one), () => type(String(one))));
    show();
    const node = element("div", {}, row, element("div", { class: "keys", role: "group" }, ...keys));
    return { node, clear: () => { typed = ""; show(); } };
}
