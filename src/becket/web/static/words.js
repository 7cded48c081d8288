/*
 * The words that people read, by key.
 *
 * In:    the merged catalogue of the server; the copy of it that this phone keeps.
 * Out:   text with its values filled in.
 * Never: HTML; a sentence put together from parts.
 */

import { readMeta, writeMeta } from "./db.js";

let words = {};
let loading = null;

/**
 * Load the catalogue once: from the server or the service worker, else the copy kept on this phone.
 * @returns {Promise<void>}
 */
export function loadWords() {
    loading ??= load();
    return loading;
}

/**
 * Return the text of a key with its values filled in; a key without text comes back as it is.
 * @param {string} key as "strap.kept"
 * @param {Object<string, string|number>} [values]
 * @returns {string}
 */
export function word(key, values = {}) {
    const text = words[key] ?? key;
    return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

/**
 * Return whether the catalogue has a key.
 * @param {string} key
 * @returns {boolean}
 */
export function hasWord(key) {
    return key in words;
}

async function load() {
    const address = globalThis.document?.body.dataset.words;
    try {
        if (!address) {
            throw new Error("words: this page names no catalogue");
        }
        const reply = await fetch(address);
        if (!reply.ok) {
            throw new Error(`words: ${reply.status}`);
        }
        words = await reply.json();
        await writeMeta("words", words).catch(() => undefined);
    } catch {
        words = (await readMeta("words").catch(() => null)) ?? {};
        if (Object.keys(words).length === 0) {
            loading = null;
        }
    }
}
