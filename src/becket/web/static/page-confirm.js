/*
 * A pattern read a second time: taps from the drum outward, then own digits; the server compares.
 *
 * In:    the keys of the page; who holds the phone.
 * Out:   one reading, kept on this phone and sent; what the server said of it.
 * Never: the typed path on this page before the own reading is sent; a reading by the typist; a tap corrected.
 */

import { oddTap, wordsOf } from "./confirm-path.js";
import { drawRope } from "./confirm-rope.js";
import { element } from "./element.js";
import { onChange, put } from "./outbox.js";
import { digitsPad } from "./pad.js";
import { checkDigits, holder, personOf, waitFor } from "./people.js";
import { sayTrouble } from "./strap.js";
import { eventsOf, newEvent } from "./view.js";
import { word } from "./words.js";

const { crane, state, label, book, typist, patternUrl } = document.body.dataset;
const taps = document.getElementById("confirm-taps");
const said = document.getElementById("confirm-said");
const foot = document.getElementById("confirm-foot");
const path = []; // {place, sheave}
let end = null; // "head right", "block"
let reading = null; // key of the event that was kept

await start();

async function start() {
    const id = await holder();
    const person = id === null ? null : await personOf(id);
    const why = whyNot(person);
    if (why !== null) {
        refuse(why, person === null);
        return;
    }
    for (const key of taps.querySelectorAll("[data-sheave]")) {
        key.addEventListener("click", () => tap(key.dataset.place, Number(key.dataset.sheave)));
    }
    for (const key of taps.querySelectorAll("[data-end]")) {
        key.setAttribute("aria-pressed", "false");
        key.addEventListener("click", () => tapEnd(key.dataset.end));
    }
    onChange(() => void lookForAnswer());
    begin();
}

/** The reason why this person cannot read this page now, or null. */
function whyNot(person) {
    if (matchMedia("(min-width: 1000px)").matches && !matchMedia("(any-pointer: coarse)").matches) {
        return word("confirm.office");
    }
    if (typist === "") return word("confirm.typed_unknown");
    if (person === null) return word("confirm.nobody");
    return samePerson(person.name, typist) ? word("confirm.you_typed") : null;
}

function samePerson(one, other) {
    const plain = (name) => name.normalize("NFKC").replace(/[^\p{L}\p{N}]/gu, "").toLocaleUpperCase();
    return plain(one) === plain(other);
}

function refuse(why, isNobody) {
    const who = element("a", { class: "action", href: `/who?crane=${crane}#${encodeURIComponent(location.pathname)}`, text: word("confirm.who") });
    const pattern = element("a", { class: "link", href: patternUrl, text: word("confirm.to_pattern") });
    said.replaceChildren(element("p", { class: "say", text: why }), ...(isNobody ? [who] : []), pattern);
    taps.hidden = true;
    foot.hidden = true;
}

function begin() {
    said.replaceChildren();
    taps.hidden = false;
    show();
}

function tap(place, sheave) {
    if (end !== null) {
        tell(word("confirm.ended"));
        return;
    }
    path.push({ place, sheave });
    show();
}

function tapEnd(name) {
    if (end !== null && end !== name) {
        tell(word("confirm.ended"));
        return;
    }
    end = name;
    show();
}

function takeBack() {
    if (end !== null) end = null;
    else path.pop();
    show();
}

function tell(text) {
    said.replaceChildren(...(text === "" ? [] : [element("p", { class: "plate", role: "alert", text })]));
}

function show() {
    tell("");
    for (const key of taps.querySelectorAll("[data-sheave]")) {
        const at = path.flatMap(({ place, sheave }, index) =>
            place === key.dataset.place && sheave === Number(key.dataset.sheave) ? [index + 1] : []);
        key.setAttribute("aria-pressed", String(at.length > 0));
        key.querySelector("small").textContent = at.join(", ");
    }
    for (const key of taps.querySelectorAll("[data-end]")) {
        key.setAttribute("aria-pressed", String(end === key.dataset.end));
    }
    document.getElementById("confirm-path").replaceChildren(...rows());
    document.getElementById("confirm-rope").replaceChildren(drawRope(taps, path, end));
    const back = element("button", { type: "button", class: "stop back", text: word("confirm.back"), click: takeBack });
    const enter = element("button", { type: "button", class: "action", text: word("confirm.enter"), click: ask });
    foot.replaceChildren(...(path.length || end ? [back] : []), enter);
    foot.hidden = false;
}

function rows() {
    const words = wordsOf(path, end);
    if (words.length === 0) return [element("li", { text: word("confirm.nothing") })];
    return words.map((text, index) => {
        const odd = oddTap(path, end, index);
        return element("li", {}, text, odd && element("span", { class: "odd", text: odd }));
    });
}

async function ask() {
    if (end === null || path.length === 0) {
        tell(word("confirm.not_ended"));
        said.scrollIntoView({ block: "center" });
        return;
    }
    const person = await personOf(await holder());
    const told = element("p", { class: "say", role: "alert" });
    const pad = digitsPad((digits) => void sign(person, digits, told, pad));
    const change = element("button", { type: "button", class: "stop back", text: word("confirm.change"), click: begin });
    taps.hidden = true;
    said.replaceChildren(
        element("p", { class: "plate", text: word("confirm.kept_what", { path: wordsOf(path, end).join(", ") }) }),
        element("h2", { text: word("confirm.digits", { name: person.name }) }), told, pad.node,
    );
    foot.replaceChildren(change);
    window.scrollTo(0, 0);
}

async function sign(person, digits, told, pad) {
    told.textContent = word("confirm.digits_looking");
    if (!(await checkDigits(person.id, digits))) {
        const seconds = await waitFor(person.id);
        const words = seconds > 0 ? ["confirm.digits_wait", { seconds }] : ["confirm.digits_wrong", { name: person.name }];
        told.textContent = word(...words);
        pad.clear();
        return;
    }
    const read = { path: path.map(({ place, sheave }) => `${place} ${sheave}`).join(", "), dead_end: end };
    const shown = { screen: "confirm", text: document.getElementById("confirm-title").textContent, proof: "own digits" };
    const parts = { crane, person: person.id, role: person.role, shown, entered: { state, book, ...read } };
    try {
        const event = await newEvent("pattern_read", parts);
        await put(event);
        reading = event.key;
    } catch (error) {
        sayTrouble(error);
        pad.clear();
        return;
    }
    foot.hidden = true;
    said.replaceChildren(
        element("p", { class: "say", role: "status", text: word("confirm.kept") }),
        element("p", { class: "plate", text: word("confirm.kept_what", { path: wordsOf(path, end).join(", ") }) }),
        element("a", { class: "link", href: patternUrl, text: word("confirm.to_pattern") }),
    );
    await lookForAnswer();
}

/** Show what the server said of the reading, once it is here. */
async function lookForAnswer() {
    if (reading === null) return;
    const events = await eventsOf(crane);
    const answer = events.find((one) => one.kind === "pattern_compared" && one.entered.about === reading);
    if (!answer) return;
    reading = null;
    const { sealed, why, typed, read, name } = answer.entered;
    if (sealed) showSame(name);
    else if (typed) showDifferent(typed, read);
    else showRefused(why);
}

function showSame(name) {
    said.replaceChildren(
        element("p", { class: "say", role: "status", text: word("confirm.same") }),
        element("p", { text: word("confirm.same_by", { state: label, name }) }),
        element("a", { class: "action", href: patternUrl, text: word("confirm.to_pattern") }),
    );
}

function showRefused(why) {
    said.replaceChildren(
        element("p", { class: "say", role: "alert", text: word("confirm.refused", { why }) }), again(),
        element("a", { class: "link", href: patternUrl, text: word("confirm.to_pattern") }),
    );
}

function showDifferent(typed, read) {
    const [one, other] = [typed, read].map(({ path: passes, dead_end: last }) => [...passes, { end: last }]);
    const text = (pass) => {
        if (pass === undefined) return word("confirm.nothing_there");
        return pass.end === undefined ? pass : word("confirm.end", { end: pass.end });
    };
    const [typedWords, readWords] = [one.map(text), other.map(text)];
    const most = Math.max(one.length, other.length);
    const first = Array.from({ length: most }, (_, at) => at).find((at) => typedWords[at] !== readWords[at]);
    const words = { number: first + 1, typed: typedWords[first] ?? text(), read: readWords[first] ?? text() };
    said.replaceChildren(
        element("p", { class: "say", role: "alert", text: word("confirm.differs") }),
        element("p", { class: "plate this", text: word("confirm.differs_pass", words) }),
        element("div", { class: "readings" }, row("confirm.typed_row", typedWords, first, most), row("confirm.read_row", readWords, first, most)),
        again(),
        element("a", { class: "link", href: patternUrl, text: word("confirm.to_pattern") }),
    );
}

function row(key, words, first, most) {
    const cells = Array.from({ length: Math.min(most, Math.max(words.length, first + 1)) }, (_, at) =>
        element("li", { class: at === first ? "first" : null, text: words[at] ?? word("confirm.nothing_there") }));
    return element("div", {}, element("p", { text: word(key) }), element("ol", {}, ...cells));
}

function again() {
    return element("button", { type: "button", class: "action", text: word("confirm.again"), click: () => location.reload() });
}
