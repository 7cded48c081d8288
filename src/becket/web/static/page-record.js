/*
 * The record and the list of records, as far as this phone knows more than the page: what is kept and not sent, notes.
 *
 * In:    the events of the crane on this phone; who holds the phone.
 * Out:   words on the page; notes.
 * Never: a change to what the page says; a blind value; a note without a name.
 */

import { element } from "./element.js";
import { foldRun } from "./fold.js";
import { may } from "./may.js";
import { momentWords } from "./moment.js";
import { onChange, put, refusedItems } from "./outbox.js";
import { crew, holder } from "./people.js";
import { photoButton, photosWaiting } from "./photo-button.js";
import { photoItems } from "./photos.js";
import { sayTrouble } from "./strap.js";
import { eventsOf, newEvent, scriptsOf } from "./view.js";
import { word } from "./words.js";

const { crane, run } = document.body.dataset;
const asked = location.pathname.match(/\/record\/([^/]+)$/);
const wanted = asked ? decodeURIComponent(asked[1]) : null; // a record that this page is not: the list stands in for it
let people = [];

await start();

async function start() {
    people = await crew();
    const draw = run ? drawRecord : drawList;
    await draw();
    onChange(() => void draw());
    if (run) startNote();
}

/* ---- one record ---- */

async function drawRecord() {
    const events = (await eventsOf(crane)).filter((one) => one.run === run);
    const waiting = events.filter((one) => one.number === null);
    const plate = document.querySelector("[data-record=waiting]");
    plate.textContent = waiting.length ? word("record.waiting_count", { count: waiting.length }) : "";
    plate.hidden = waiting.length === 0;
    await drawPhotos(events);
    drawRefused((await refusedItems()).filter(({ event }) => event.run === run));
    const notes = waiting.filter((one) => one.kind === "noted").map((one) => element("li", {},
        element("span", { class: "record-label", text: one.entered.text }),
        element("span", { class: "record-below", text: `${nameOf(one.person)}, ${momentWords(one.at)}` }),
        element("span", { class: "record-below", text: word("record.waiting") })));
    document.querySelector("[data-record=notes]").replaceChildren(...notes);
}

/** The photos of this record that wait on this phone; none while a count is hidden. */
async function drawPhotos(events) {
    const isHidden = events.some((one) => one.entered.sealed);
    const items = isHidden ? [] : (await photoItems()).filter((one) => one.run === run);
    const place = document.querySelector("[data-photos=waiting]");
    place.replaceChildren(...photosWaiting(items));
    place.hidden = items.length === 0;
}

function drawRefused(items) {
    const list = document.querySelector("[data-record=refused]");
    const rows = items.map(({ why }) => element("li", { class: "plate this" }, element("p", { text: word("record.refused_here", { why }) }),
        element("button", { type: "button", class: "turn", text: word("record.print_it"), click: () => window.print() })));
    list.replaceChildren(...rows);
    list.hidden = rows.length === 0;
}

/** A note is added by whoever holds the phone. */
function startNote() {
    const form = document.querySelector("[data-record=note]");
    if (!may("notes")) return;
    const text = form.querySelector("textarea");
    const said = form.querySelector("[role=status]");
    form.hidden = false;
    const about = () => ({ crane, run, note: text.value.trim(), shown: { screen: "record" } });
    form.append(photoButton(about, () => {
        text.value = "";
    }));
    form.addEventListener("submit", (event) => {
        event.preventDefault();
        void keepNote(text, said);
    });
}

async function keepNote(text, said) {
    if (text.value.trim() === "") {
        said.textContent = word("record.note_empty");
        text.focus();
        return;
    }
    const id = await holder();
    const by = people.find((one) => one.id === id);
    if (!by) {
        const who = element("a", { class: "link", href: `/who?crane=${crane}#${encodeURIComponent(location.pathname)}`, text: word("record.note_who") });
        said.replaceChildren(word("record.note_no_holder"), " ", who);
        return;
    }
    const parts = { crane, run, role: by.role, person: by.id, shown: { screen: "record" }, entered: { text: text.value.trim() } };
    try {
        await put(await newEvent("noted", parts));
    } catch (error) {
        sayTrouble(error);
        return;
    }
    text.value = "";
    said.textContent = word("record.note_kept");
}

/* ---- the list ---- */

async function drawList() {
    const events = await eventsOf(crane);
    const scripts = await scriptsOf(events);
    const starts = events.filter((one) => one.kind === "run_started" && !isListed(one.run)).reverse();
    const rows = starts.map((one) => rowOf(one, events.filter((other) => other.run === one.run), scripts)).filter(Boolean);
    const list = document.querySelector("[data-record=kept]");
    list.replaceChildren(...rows);
    list.hidden = rows.length === 0;
    const empty = document.querySelector("[data-record=empty]");
    if (empty) empty.hidden = rows.length > 0;
    if (wanted) document.getElementById(`kept-${wanted}`)?.scrollIntoView();
}

function isListed(id) {
    return document.querySelector(`.list a[href="/c/${crane}/record/${CSS.escape(id)}"]`) !== null;
}

function rowOf(start, events, scripts) {
    const script = scripts[start.entered.script];
    if (!script) return bareRow(start);
    const state = foldRun(script, events);
    const waiting = events.some((one) => one.number === null);
    const signed = ["operator", "rigger"].map((role) => element("span", { class: "record-below", text: signWords(state, role) }));
    return element("li", { class: state.status === "closed" ? "plate" : "plate hatch", id: `kept-${start.run}` },
        element("p", {}, element("b", { text: word(`record.status.${state.status}`) })),
        element("p", {}, element("b", { class: "record-value", text: titleOf(script, state, start) })),
        ...signed,
        ...(waiting ? [element("p", {}, element("b", { text: word("record.waiting") }))] : []),
        element("a", { class: "link", href: `/run/${start.run}`, text: word("record.list_open") }));
}

/** A run whose script this phone cannot get: that it was begun is all that can be said here. */
function bareRow(start) {
    return element("li", { class: "plate hatch", id: `kept-${start.run}` },
        element("p", {}, element("b", { text: word("record.begun_unknown", { at: momentWords(start.at) }) })),
        ...(start.number === null ? [element("p", {}, element("b", { text: word("record.waiting") }))] : []));
}

function titleOf(script, state, start) {
    if (state.status === "closed" && state.result) {
        return word("record.title_closed", { state: stateWords(state.result), since: momentWords(state.ended) });
    }
    const isChange = script.before !== null && script.after !== null;
    const what = isChange ? word("record.change", { before: stateWords(script.before), after: stateWords(script.after) }) : word("record.count_now");
    return word("record.title_open", { what, started: momentWords(start.at) });
}

function signWords(state, role) {
    const signed = state.signed[role];
    const name = word("record.person", { role: word(`record.role.${role}`), name: nameOf(state.people[role]) });
    return `${name}: ${signed ? word("record.signed_at", { at: momentWords(signed.at) }) : word("record.not_signed")}`;
}

function stateWords(state) {
    const at = state.lastIndexOf(":");
    const [name, falls] = [state.slice(0, at), state.slice(at + 1)];
    const block = /block|ball|hook/i.test(name) ? name : `${name} block`;
    return word(falls === "1" ? "record.falls_one" : "record.falls", { falls, block });
}

function nameOf(id) {
    return people.find((one) => one.id === id)?.name ?? id ?? "?";
}
