/*
 * The safety signs, each in its own meaning only: yellow warns, blue must, red must not.
 *
 * In:    the name that the script gives.
 * Out:   a small drawing with its words.
 * Never: a colour of a sign on anything else.
 */

import { drawn } from "./element.js";
import { hasWord, word } from "./words.js";

const HAND = "M19 33v-9l-4-4m4 4V11m5 11V8m5 14V9m5 14V13m0 10v6c0 6-3 9-8 9h-2c-4 0-6-3-8-7l-4-8";
const PERSON = "M24 12a3 3 0 1 0 .1 0M24 20v9M17 23h14M24 29l-5 9M24 29l5 9";
const WARNS = { overhead: "M24 15v8m0 0a4 4 0 1 1-4 4M14 37h20", crush: "M14 38h20M14 22h20M24 27v7M20 31l4 4 4-4" };
const SHAPES = {
    warn: (name) => [
        drawn("path", { d: "M24 3 46 43H2Z", class: "sign-warn" }),
        drawn("path", { d: WARNS[name] ?? "M24 17v14M24 34v5", class: "sign-on-warn" }),
    ],
    "must-not": (name) => [
        drawn("circle", { cx: 24, cy: 24, r: 20, class: "sign-paper" }),
        drawn("path", { d: name === "no-hands" ? HAND : PERSON, class: "sign-drawn" }),
        drawn("circle", { cx: 24, cy: 24, r: 20, class: "sign-not" }),
        drawn("path", { d: "M10 10 38 38", class: "sign-not" }),
    ],
    must: () => [
        drawn("circle", { cx: 24, cy: 24, r: 22, class: "sign-must" }),
        drawn("path", { d: "M15 23h18v13H15ZM19 23v-5a5 5 0 0 1 10 0v5", class: "sign-on-must" }),
    ],
};
const MEANS = { "no-hands": "must-not", "no-entry": "must-not", "must-lock": "must", overhead: "warn", crush: "warn" };

/**
 * Return a sign, or null where the item has none.
 * @param {?string} name
 * @returns {?SVGElement}
 */
export function sign(name) {
    if (!name) return null;
    const key = `run.sign.${name}`;
    const label = hasWord(key) ? word(key) : word("run.sign.warn");
    const shape = SHAPES[MEANS[name] ?? "warn"](name);
    return drawn("svg", { viewBox: "0 0 48 48", class: "sign", role: "img", "aria-label": label }, ...shape);
}
