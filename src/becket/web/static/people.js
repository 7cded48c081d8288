/*
 * Who is on the crew list and who holds the phone.
 *
 * In:    the events of the firm; four digits, keys 1 to 9.
 * Out:   people; whether the digits are theirs.
 * Never: the digits kept anywhere, here or in an event: only a salt and a check value are.
 *
 * Four digits tell two people on one site apart. They do not stop somebody who takes the check value away and tries
 * all 6561: what the record says is who gave their digits on which phone, no more.
 */

import { changeMeta, randomName, readMeta, writeMeta } from "./db.js";
import { put } from "./outbox.js";
import { eventsOf, newEvent } from "./view.js";

const ROUNDS = 100_000; // PBKDF2, SHA-256
const FREE_TRIES = 5; // wrong digits before the first wait
const WAITS = [30, 60, 120, 300, 900]; // s
const DIGITS = /^[1-9]{4}$/;

/** The digits cannot be checked or set as asked. `word` is the key of the words for it. */
export class PeopleError extends Error {
    /** @param {string} word key in the catalogue */
    constructor(word) {
        super(word);
        this.name = "PeopleError";
        this.word = word;
    }
}

/**
 * Return everybody on the crew list, last used on this phone first.
 * @returns {Promise<{id: string, name: string, role: string, licence: string, salt: string, check: string}[]>}
 */
export async function crew() {
    const people = listed(await eventsOf(""));
    const used = (await readMeta("used")) ?? {};
    const moment = (one) => used[one.id] ?? "";
    return people.sort((one, other) => moment(other).localeCompare(moment(one)) || one.name.localeCompare(other.name));
}

/**
 * Return the people that events put on the list, in the order of the events.
 * @param {object[]} events in order
 * @returns {object[]}
 */
export function listed(events) {
    const people = new Map();
    for (const { kind, person, entered } of events) {
        if (kind === "person_added" && !people.has(entered.id)) {
            people.set(entered.id, { ...entered });
        } else if (kind === "digits_changed" && mayChange(people, person, entered)) {
            Object.assign(people.get(entered.id), { salt: entered.salt, check: entered.check });
        }
    }
    return [...people.values()];
}

/**
 * Return a person by id, or null.
 * @param {?string} id
 * @returns {Promise<?object>}
 */
export async function personOf(id) {
    return (await crew()).find((one) => one.id === id) ?? null;
}

/**
 * Return the id of whoever holds this phone, or null.
 * @returns {Promise<?string>}
 */
export async function holder() {
    return (await readMeta("holder")) ?? null;
}

/**
 * Keep who holds this phone; after their digits were right.
 * @param {?string} id null: nobody
 * @returns {Promise<void>}
 */
export async function setHolder(id) {
    await writeMeta("holder", id);
    if (id !== null) {
        await changeMeta("used", (old) => ({ ...old, [id]: new Date().toISOString() }));
    }
}

/**
 * Return whether four digits are those of a person. While `waitFor` says to wait, no digits are looked at and the
 * answer is false.
 * @param {string} personId
 * @param {string} digits
 * @returns {Promise<boolean>}
 * @throws {PeopleError} this page cannot check digits
 */
export async function checkDigits(personId, digits) {
    if ((await waitFor(personId)) > 0) {
        return false;
    }
    const isRight = await areDigitsOf(personId, digits);
    await changeMeta(`tries:${personId}`, (old) => (isRight ? null : oneMoreWrong(old)));
    return isRight;
}

/**
 * Return whether four digits are those of a person, without counting a try: to tell who it was that gave digits which
 * `checkDigits` found wrong for somebody else, never to let anybody in.
 * @param {string} personId
 * @param {string} digits
 * @returns {Promise<boolean>}
 * @throws {PeopleError} this page cannot check digits
 */
export async function areDigitsOf(personId, digits) {
    const person = await personOf(personId);
    return person !== null && DIGITS.test(digits) && (await checkValue(digits, person.salt)) === person.check;
}

/**
 * Return how long to wait before a person's digits are looked at again [s]; 0: no wait.
 * @param {string} personId
 * @returns {Promise<number>}
 */
export async function waitFor(personId) {
    const tries = await readMeta(`tries:${personId}`);
    if (!tries || tries.wait === 0) {
        return 0;
    }
    const left = (tries.until - Date.now()) / 1000;
    if (left > tries.wait) {
        // the clock was set back: the wait begins again, it does not last until the clock has come round
        await changeMeta(`tries:${personId}`, () => ({ ...tries, until: Date.now() + tries.wait * 1000 }));
        return tries.wait;
    }
    return Math.ceil(Math.max(0, left));
}

/**
 * Return how many wrong digits a person has given on this phone since the last right ones.
 * @param {string} personId
 * @returns {Promise<number>}
 */
export async function wrongTries(personId) {
    return (await readMeta(`tries:${personId}`))?.wrong ?? 0;
}

/**
 * Put a person on the list; works without signal.
 * @param {{name: string, role: string, licence: string, digits: string}} found
 * @returns {Promise<string>} id
 */
export async function addPerson({ name, role, licence, digits }) {
    const tidy = name.trim().replace(/\s+/g, " ");
    if (tidy === "") {
        throw new PeopleError("who.fault.no_name");
    }
    if ((await crew()).some((one) => one.name.toLowerCase() === tidy.toLowerCase())) {
        throw new PeopleError("who.fault.name_there");
    }
    const id = `p-${randomName(8)}`;
    const entered = { id, name: tidy, role, licence: licence.trim(), ...(await saltAndCheck(digits)) };
    await put(await newEvent("person_added", { crane: "", role, person: id, entered }));
    return id;
}

/**
 * Give a person new digits, vouched for by two others whose digits were right.
 * @param {string} id
 * @param {string} digits
 * @param {string[]} vouchers ids
 * @returns {Promise<void>}
 */
export async function changeDigits(id, digits, vouchers) {
    const person = await personOf(id);
    const others = new Set(vouchers.filter((one) => one !== id));
    if (person === null || others.size < 2) {
        throw new PeopleError("who.fault.two_others");
    }
    const entered = { id, vouchers: [...others], ...(await saltAndCheck(digits)) };
    await put(await newEvent("digits_changed", { crane: "", role: person.role, person: id, entered }));
    await writeMeta(`tries:${id}`, null);
}

/**
 * Return the first letters of the first and the last name.
 * @param {string} name
 * @returns {string}
 */
export function initials(name) {
    const parts = name.trim().split(/\s+/);
    const ends = parts.length > 1 ? [parts[0], parts[parts.length - 1]] : [parts[0]];
    return ends.map((part) => [...part][0] ?? "").join("").toLocaleUpperCase();
}

async function saltAndCheck(digits) {
    if (!DIGITS.test(digits)) {
        throw new PeopleError("who.fault.four_digits");
    }
    const salt = randomName(16);
    return { salt, check: await checkValue(digits, salt) };
}

async function checkValue(digits, salt) {
    if (!globalThis.crypto?.subtle) {
        throw new PeopleError("who.fault.insecure");
    }
    const bytes = Uint8Array.from(salt.match(/../g), (pair) => parseInt(pair, 16));
    const key = await crypto.subtle.importKey("raw", new TextEncoder().encode(digits), "PBKDF2", false, ["deriveBits"]);
    const how = { name: "PBKDF2", hash: "SHA-256", salt: bytes, iterations: ROUNDS };
    const found = new Uint8Array(await crypto.subtle.deriveBits(how, key, 256));
    return Array.from(found, (one) => one.toString(16).padStart(2, "0")).join("");
}

function mayChange(people, person, { id, vouchers }) {
    const others = new Set((vouchers ?? []).filter((one) => one !== id && people.has(one)));
    return people.has(id) && person === id && others.size >= 2;
}

function oneMoreWrong(old) {
    const wrong = (old?.wrong ?? 0) + 1;
    const over = wrong - FREE_TRIES;
    const wait = over < 0 ? 0 : WAITS[Math.min(over, WAITS.length - 1)];
    return { wrong, wait, until: Date.now() + wait * 1000 };
}
