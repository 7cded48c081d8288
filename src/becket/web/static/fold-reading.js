/*
 * One value that was entered, against the field that asked for it; values as they are said to a person.
 *
 * In:    a field of the script, a value as it was entered.
 * Out:   what is wrong with it, in words; whether two values say the same.
 * Never: a value put right; a value taken because it is near.
 *
 * The truth is guide/reading.py and guide/run_words.py; tests hold both together.
 */

import { WORDS } from "./fold-words.js";

const ROUNDING = 1e-9;
const TIME = /^([01][0-9]|2[0-3]):[0-5][0-9]$/;
const LARGEST = 2 ** 53;

const READABLE = {
    falls: (field, value) => isWhole(value) && value >= 1,
    count: (field, value) => isWhole(value) && value >= 0,
    number: (field, value) => isNumber(value),
    sheave: isSheave,
    sheaves: (field, value) =>
        Array.isArray(value) && value.every((one) => isSheave(field, one)) && new Set(value).size === value.length,
    choice: (field, value) =>
        typeof value === "string" && (field.choices.includes(value) || field.stops.includes(value)),
    text: (field, value) => typeof value === "string",
    name: (field, value) => typeof value === "string" && /[^ \t\r\n]/.test(value),
    time: (field, value) => typeof value === "string" && TIME.test(value),
};

/**
 * Return the text of a code with its facts filled in.
 * @param {string} code
 * @param {Object<string, *>} [facts]
 * @returns {string}
 */
export function runWord(code, facts = {}) {
    return filled(WORDS[code], facts);
}

/**
 * Return a text with its places filled in; a place without a fact stays as it is.
 * @param {string} text
 * @param {Object<string, *>} facts
 * @returns {string}
 */
export function filled(text, facts) {
    return text.replace(/\{([a-z_]+)\}/g, (whole, name) => (Object.hasOwn(facts, name) ? said(facts[name]) : whole));
}

/**
 * Return a value as it is said to a person; "?" for what is no text, number or list.
 * @param {*} value
 * @returns {string}
 */
export function said(value) {
    if (typeof value === "string") {
        return value;
    }
    if (Array.isArray(value)) {
        return value.length ? value.map(said).join(", ") : "none";
    }
    return typeof value === "number" ? saidNumber(value) : "?";
}

/**
 * Return whether a value is a finite number.
 * @param {*} value
 * @returns {boolean}
 */
export function isNumber(value) {
    return typeof value === "number" && Number.isFinite(value);
}

/**
 * Return whether a value is a whole number that is held exactly.
 * @param {*} value
 * @returns {boolean}
 */
export function isWhole(value) {
    return Number.isInteger(value) && Math.abs(value) < LARGEST;
}

/**
 * Return whether a value is an object with names, neither null nor a list.
 * @param {*} value
 * @returns {boolean}
 */
export function isObject(value) {
    return typeof value === "object" && value !== null && !Array.isArray(value);
}

/**
 * Return what is wrong with an entered value, in words; null: it is taken.
 * @param {object} field
 * @param {*} value undefined or null: nothing was entered
 * @returns {?string}
 */
export function whatIsWrong(field, value) {
    if (value === undefined || value === null) {
        return isFree(field) ? null : runWord("missing_value", { prompt: field.prompt });
    }
    if (!isReadable(field, value)) {
        return runWord("unreadable", { prompt: field.prompt });
    }
    if (field.kind === "choice" && field.stops.includes(value)) {
        return field.wrong ? filled(field.wrong, { value }) : runWord("stops", { value });
    }
    if (field.want !== null && !isAlike(field, value, field.want)) {
        return field.wrong ? filled(field.wrong, { value }) : runWord("not_wanted", { value });
    }
    if (field.kind === "number" && !isInRange(field, value)) {
        return outOfRange(field, value);
    }
    return null;
}

/**
 * Return whether a field takes any words, or none.
 * @param {object} field
 * @returns {boolean}
 */
export function isFree(field) {
    return field.kind === "text" && field.want === null;
}

/**
 * Return whether a value is of the kind that the field asks for.
 * @param {object} field
 * @param {*} value
 * @returns {boolean}
 */
export function isReadable(field, value) {
    return READABLE[field.kind](field, value);
}

/**
 * Return whether two values say the same: numbers within the tolerance, sheaves in any order.
 * @param {object} field
 * @param {*} one
 * @param {*} other
 * @returns {boolean}
 */
export function isAlike(field, one, other) {
    if (field.kind === "number" && isNumber(one) && isNumber(other)) {
        return Math.abs(one - other) <= (field.tolerance ?? 0) + ROUNDING;
    }
    return isSame(one, other);
}

/**
 * Return whether two plain values are the same; lists in any order; a number is never a text.
 * @param {*} one
 * @param {*} other
 * @returns {boolean}
 */
export function isSame(one, other) {
    if (Array.isArray(one) && Array.isArray(other)) {
        const [first, second] = [one.map(said).sort(), other.map(said).sort()];
        return first.length === second.length && first.every((value, place) => value === second[place]);
    }
    if (isNumber(one) && isNumber(other)) {
        return one === other;
    }
    return typeof one === "string" && one === other;
}

function isSheave(field, value) {
    return isWhole(value) && (field.sheaves.length === 0 || field.sheaves.includes(value));
}

function isInRange(field, value) {
    const least = field.least === null ? -Infinity : field.least - ROUNDING;
    const most = field.most === null ? Infinity : field.most + ROUNDING;
    return least <= value && value <= most;
}

function outOfRange(field, value) {
    if (field.wrong) {
        return filled(field.wrong, { value });
    }
    const code = field.most === null ? "at_least" : field.least === null ? "at_most" : "between";
    return runWord("out_of_range", { value, range: runWord(code, { least: field.least, most: field.most }) });
}

function saidNumber(value) {
    const size = Math.abs(value);
    if (!(size === 0 || (size >= 1e-4 && size < 1e15))) {
        return "?";
    }
    return (value < 0 ? "−" : "") + String(size);
}
