/*
 * Trouble and inspection: a wrong reeve, a two-block, a shock lock the crane out; an inspection ends it.
 *
 * In:    the events of the crane on this phone; who holds the phone.
 * Out:   events, kept on this phone and sent; the state of the lock-out as this phone knows it.
 * Never: a lock-out ended without what was found at every part; a value that stands there before somebody wrote it.
 */

import { element } from "./element.js";
import { craneNow } from "./fold.js";
import { may } from "./may.js";
import { momentWords } from "./moment.js";
import { onChange, put } from "./outbox.js";
import { digitsPad } from "./pad.js";
import { checkDigits, crew, holder, waitFor } from "./people.js";
import { sayTrouble } from "./strap.js";
import { eventsOf, newEvent, scriptsOf } from "./view.js";
import { word } from "./words.js";

const KINDS = ["wrong reeve", "two-block", "shock"];
const PARTS = ["rope", "sheaves", "head", "block", "switch"];
const { crane } = document.body.dataset;
const title = document.getElementById("trouble-title");
const stateBox = document.getElementById("trouble-state");
const form = document.getElementById("trouble-form");
let people = [];
let person = null;
let wasLocked = null;

await start();

async function start() {
    people = await crew();
    const id = await holder();
    person = people.find((one) => one.id === id) ?? null;
    await draw();
    onChange(() => void draw());
}

/** Draw the state and the list anew; the form only when the state is another one: nothing typed is thrown away. */
async function draw() {
    const events = await eventsOf(crane);
    const { locked } = craneNow(events, await scriptsOf(events));
    drawHistory(events);
    if ((locked !== null) === wasLocked) return;
    wasLocked = locked !== null;
    title.textContent = word(locked ? "trouble.title_locked" : "trouble.title");
    stateBox.replaceChildren(...(locked ? lockedWords(locked) : freeWords()));
    form.replaceChildren(...(whyNot() ?? [locked ? inspectionForm() : troubleForm()]));
}

function lockedWords({ what, at, by }) {
    return [
        element("p", { class: "plate inverse", text: word("trouble.locked", { what: kindWords(what) }) }),
        element("p", { text: word("trouble.locked_by", { name: nameOf(by), at: momentWords(at) }) }),
        element("p", {}, element("b", { text: word("trouble.locked_do") })),
    ];
}

function freeWords() {
    return [element("p", { text: word("trouble.what_for") }), element("p", { text: word("trouble.not_locked") })];
}

function whyNot() {
    if (matchMedia("(min-width: 1000px)").matches && !matchMedia("(any-pointer: coarse)").matches) {
        return [element("p", { class: "plate", text: word("trouble.office") })];
    }
    const isLocked = wasLocked;
    if (!may(isLocked ? "inspect" : "trouble")) {
        return [element("p", { class: "plate", text: word(isLocked ? "accounts.not_inspector" : "accounts.not_trouble") })];
    }
    if (person !== null) return null;
    const who = element("a", { class: "action", href: `/who?crane=${crane}#${encodeURIComponent(location.pathname)}`, text: word("trouble.who") });
    return [element("p", { class: "say", text: word("trouble.nobody") }), who];
}

/* ---- trouble ---- */

function troubleForm() {
    let what = null;
    const plates = KINDS.map((kind) => plate(word(`trouble.kind.${kind}`), word(`trouble.says.${kind}`), () => {
        what = kind;
        press(plates, KINDS.indexOf(kind));
    }));
    const note = field("note", word("trouble.note"), "textarea");
    const wrong = element("p", { class: "say", role: "alert" });
    const made = element("form", { novalidate: true },
        element("h2", { text: word("trouble.which") }),
        element("div", { class: "trouble-plates", role: "group", "aria-label": word("trouble.which") }, ...plates),
        note.node, wrong, element("button", { type: "submit", class: "action", text: word("trouble.enter") }));
    made.addEventListener("submit", (event) => {
        event.preventDefault();
        const fault = what === null ? "trouble.which_missing" : note.read() === "" ? "trouble.note_missing" : null;
        wrong.textContent = fault === null ? "" : word(fault);
        if (fault !== null) return;
        void keep("trouble_entered", { what, note: note.read() }, "trouble.entered", made);
    });
    return made;
}

/* ---- inspection ---- */

function inspectionForm() {
    let fit = null;
    const fields = [
        ["by_whom", field("by_whom", word("trouble.by_whom"))],
        ["licence", field("licence", word("trouble.licence"))],
        ...PARTS.map((part) => [part, field(part, word(`trouble.part.${part}`), "textarea")]),
    ];
    const choices = [true, false];
    const plates = choices.map((value, at) => plate(word(value ? "trouble.fit_yes" : "trouble.fit_no"), "", () => {
        fit = value;
        press(plates, at);
    }));
    const wrong = element("p", { class: "say", role: "alert" });
    const made = element("form", { novalidate: true },
        element("h2", { text: word("trouble.inspection") }), element("p", { text: word("trouble.inspection_how") }),
        ...fields.map(([, one]) => one.node),
        element("h2", { text: word("trouble.fit") }),
        element("div", { class: "trouble-plates", role: "group", "aria-label": word("trouble.fit") }, ...plates),
        wrong, element("button", { type: "submit", class: "action", text: word("trouble.to_digits") }));
    made.addEventListener("submit", (event) => {
        event.preventDefault();
        const empty = fields.find(([, one]) => one.read() === "");
        wrong.textContent = empty ? word("trouble.missing", { field: empty[1].label }) : fit === null ? word("trouble.fit_missing") : "";
        if (empty) empty[1].input.focus();
        if (empty || fit === null) return;
        const values = Object.fromEntries(fields.map(([name, one]) => [name, one.read()]));
        askDigits(made, inspected(values, fit));
    });
    return made;
}

function inspected({ by_whom, licence, ...parts }, fit) {
    const found = PARTS.map((part) => `${part}: ${parts[part]}`).join("; ");
    return { by_whom, licence, inspected: parts, found, fit };
}

function askDigits(made, entered) {
    const told = element("p", { class: "say", role: "alert" });
    const pad = digitsPad(async (digits) => {
        told.textContent = word("trouble.digits_looking");
        if (await checkDigits(person.id, digits)) {
            const done = entered.fit ? "trouble.ended" : "trouble.stays";
            await keep("inspection_entered", entered, done, box, () => pad.clear());
            return;
        }
        const seconds = await waitFor(person.id);
        told.textContent = seconds > 0 ? word("trouble.digits_wait", { seconds }) : word("trouble.digits_wrong", { name: person.name });
        pad.clear();
    });
    const what = word(entered.fit ? "trouble.digits_what" : "trouble.digits_what_not", { by_whom: entered.by_whom });
    const back = element("button", { type: "button", class: "action second", text: word("trouble.change"), click: () => box.replaceWith(made) });
    const box = element("div", {}, element("h2", { tabindex: "-1", text: word("trouble.digits", { name: person.name }) }),
        element("p", { text: what }), told, pad.node, back);
    made.replaceWith(box);
    box.firstChild.focus();
    box.firstChild.scrollIntoView({ block: "center" });
}

/* ---- both ---- */

async function keep(kind, entered, said, place, failed = () => undefined) {
    const shown = { screen: "trouble", text: title.textContent, ...(kind === "inspection_entered" ? { proof: "own digits" } : {}) };
    try {
        await put(await newEvent(kind, { crane, person: person.id, role: person.role, shown, entered }));
    } catch (error) {
        failed();
        sayTrouble(error);
        return;
    }
    const to = element("a", { class: "action", href: `/c/${crane}/now`, text: word("trouble.to_now") });
    await draw();
    form.prepend(element("p", { class: "plate this", role: "status", text: word(said) }), to);
    if (place.isConnected) place.remove();
    window.scrollTo(0, 0);
}

function plate(text, more, click) {
    const words = [element("b", { text }), more ? element("span", { text: more }) : null].filter(Boolean);
    return element("button", { type: "button", class: "trouble-plate", "aria-pressed": "false", click }, ...words);
}

function press(plates, chosen) {
    plates.forEach((one, at) => one.setAttribute("aria-pressed", String(at === chosen)));
}

function field(name, label, tag = "input") {
    const input = element(tag, { id: `trouble-${name}`, name, autocomplete: "off", maxlength: 600, ...(tag === "textarea" ? { rows: 2 } : { type: "text" }) });
    const node = element("div", { class: "field" }, element("label", { for: input.id, text: label }), input);
    return { node, input, label, read: () => input.value.trim() };
}

function drawHistory(events) {
    const rows = events.filter(({ kind }) => kind === "trouble_entered" || kind === "inspection_entered").reverse();
    const list = rows.map((event) => element("li", {}, ...historyWords(event).map((text, at) => element(at === 0 ? "b" : "span", { text }))));
    const none = element("li", { text: word("trouble.history_none") });
    document.getElementById("trouble-history").replaceChildren(...(list.length ? list : [none]));
}

function historyWords({ kind, person: by, at, number, entered }) {
    const who = word("trouble.locked_by", { name: nameOf(by), at: momentWords(at) });
    const waiting = number === null ? [word("trouble.waiting")] : [];
    if (kind === "trouble_entered") {
        return [kindWords(entered.what), who, entered.note ?? "", ...waiting].filter(Boolean);
    }
    const words = { by_whom: entered.by_whom, licence: entered.licence || word("trouble.licence_none") };
    return [word(entered.fit === true ? "trouble.fit_said" : "trouble.not_fit_said", words), who, entered.found ?? "", ...waiting].filter(Boolean);
}

function kindWords(what) {
    return KINDS.includes(what) ? word(`trouble.kind.${what}`) : what;
}

function nameOf(id) {
    return people.find((one) => one.id === id)?.name ?? id ?? "?";
}
