/*
 * A run at the crane: one screen after another, drawn from the script and the events on this phone. No server needed.
 *
 * In:    the run in the address; script and events of this phone.
 * Out:   the screen that is next; events, each kept before the next screen.
 * Never: a step left out; a screen that changes under the finger; a blind value in the page once it is hidden.
 */

import { answer, inOneGo, readMeta } from "./db.js";
import { element } from "./element.js";
import { foldRun, lockOutOf } from "./fold.js";
import { may } from "./may.js";
import { deliver, onChange, put } from "./outbox.js";
import { crew, holder } from "./people.js";
import { photoButton } from "./photo-button.js";
import { itemNow, line, roundOf, show, title } from "./screen.js";
import { drawAgree, drawDiffer, drawFollow } from "./screen-differ.js";
import { drawHandover } from "./screen-handover.js";
import { drawAlone, drawPad } from "./screen-pad.js";
import { drawClosed, drawSign } from "./screen-sign.js";
import { startRun } from "./screen-start.js";
import { drawBefore, drawOffice, drawStep, drawWrong } from "./screen-step.js";
import { drawResume, drawResumed, drawReturn, drawStop, drawStopped, drawTold } from "./screen-stop.js";
import { askedHere, hasOtherPhone, isNewHere, keepLooking, roleHere } from "./two-phones.js";
import { drawCodes, drawInvited, drawJoin, drawWaiting, inviteOf, joinByCode, joinLink } from "./two-phones-screens.js";
import { deviceName, eventsOfRun, newEvent, scriptOf } from "./view.js";
import { loadWords, word } from "./words.js";

/** A screen: its name, when it stands, what draws it. The first that applies stands. */
const SCREENS = [
    ["office", () => isOffice(), drawOffice],
    ["closed", ({ state }) => state.screen === "closed", drawClosed],
    ["invited", ({ invite }) => invite !== null, drawInvited],
    ["resume", ({ state, local }) => state.screen === "stopped" && local.looked, drawResume],
    ["return", ({ state, local }) => state.screen === "stopped" && local.resuming, drawReturn],
    ["stopped", ({ state }) => state.screen === "stopped", drawStopped],
    ["stop", ({ local }) => local.stopping === "ask", drawStop],
    ["told", ({ local }) => local.stopping === "told", drawTold],
    ["resumed", ({ state, local }) => isResumed(state) && !local.answered, drawResumed],
    ["join", (scene) => isNewHere(scene), drawJoin],
    ["agree", ({ local }) => Boolean(local.agreed), drawAgree],
    ["follow", ({ state }) => state.screen === "follow_by_hand", drawFollow],
    ["differ", ({ state }) => state.screen === "differ", drawDiffer],
    ["sign", ({ state }) => state.screen === "sign", drawSign],
    ["before", (scene) => isBefore(scene), drawBefore],
    ["codes", (scene) => Boolean(scene.local.codes) && (scene.state.screen === "waiting" || isElsewhere(scene)), drawCodes],
    ["waiting", (scene) => scene.state.screen === "waiting" || isElsewhere(scene), drawWaiting],
    ["handover", (scene) => itemNow(scene).blind && !isOpened(scene), drawHandover],
    ["alone", (scene) => itemNow(scene).blind && scene.local.view !== "pad", drawAlone],
    ["blind", (scene) => itemNow(scene).blind, drawPad],
    ["wrong", (scene) => isWrong(scene), drawWrong],
    ["pad", (scene) => isPad(scene), drawPad],
    ["step", () => true, drawStep],
];
/** On these the strap says nothing but Count. */
const COUNTING = ["invited", "codes", "waiting", "handover", "alone", "blind", "differ", "follow", "agree"];
/** On these a photo may be taken: on no count, on nothing that is asked before what was kept is shown. */
const PHOTO_ON = ["step", "pad", "wrong", "stopped", "resumed", "sign", "closed"];
/** On these nothing is gone on with: that the book has changed is not told. */
const NOT_GOING_ON = ["office", "closed", "invited", "codes", "join"];
const OF_LOCK_OUT = ["trouble_entered", "inspection_entered"];
const CROSSING = ["stop", "told", "stopped", "return", "resume"]; // as they were opened: a count that is stopped stays a count

const scene = {
    script: null, state: null, run: null, people: [], events: [], device: null, holder: null, invite: null, busy: false, seen: "", isBookNewer: false, notice: null,
    local: {},
    main: document.getElementById("screen"),
    foot: document.getElementById("run-foot"),
    go, write, again,
};

await start();

async function start() {
    await loadWords();
    const id = decodeURIComponent(location.pathname.split("/").filter(Boolean).at(-1) ?? "");
    if (id === "start") {
        document.body.dataset.screen = "start";
        if ((await crew()).length === 0) await deliver(); // a new phone: who is on the list comes with the first signal
        if (isOffice()) show(scene, [title(word("run.office.start")), line(word("run.office.read_only"), "plate")], []);
        else await startRun(scene);
        return;
    }
    if (id === "join") {
        document.body.dataset.screen = "join";
        await joinByCode(scene);
        return;
    }
    scene.device = await deviceName();
    if (!(await eventsOfRun(id)).some((one) => one.kind === "run_started")) await deliver(); // begun on another phone
    if (!(await load(id))) return;
    await joinAsHolder();
    await interruptIfBrokenOff();
    draw();
    keepLooking(() => scene.state.screen === "closed");
    onChange(() => void lookAgain());
    addEventListener("pageshow", (event) => {
        if (event.persisted) location.reload();
    });
}

/** Read what this phone has of the run; false: not enough to go on. */
async function load(id) {
    scene.events = await eventsOfRun(id);
    scene.holder = await holder();
    const began = scene.events.find((one) => one.kind === "run_started");
    scene.people = await crew();
    if (!began) return sayMissing("run.not_here");
    const { operator, rigger, script } = began.entered;
    scene.run = { id, crane: began.crane, operator, rigger, script };
    scene.script = await scriptOf(script);
    if (!scene.script) return sayMissing("run.no_script");
    scene.state = askedHere(scene, foldRun(scene.script, scene.events));
    scene.invite = await inviteOf(scene);
    await lookAtBook();
    await lookAtCrane();
    return true;
}

/** The script, and the book in it, stays that of the beginning; the feed says which book the server has now. */
async function lookAtBook() {
    const began = scene.events.find((one) => one.kind === "run_started")?.entered.book;
    const now = (await readMeta(`feed:${scene.run.crane}`))?.book;
    scene.isBookNewer = Boolean(began && now) && began !== now;
}

/** A lock-out of the crane stops this run; the inspection that ended one has given up what had begun before it. */
async function lookAtCrane() {
    const records = await inOneGo(["events"], "readonly", ({ events }) => answer(events.index("crane").getAll(scene.run.crane)));
    const events = records.map((one) => one.event).filter(({ kind }) => OF_LOCK_OUT.includes(kind));
    const { locked, ended } = lockOutOf(events);
    const began = scene.events.find((one) => one.kind === "run_started");
    const isGivenUp = ended !== null && (ended.tick - began.tick || (ended.key < began.key ? -1 : 1)) > 0;
    scene.notice = locked ? word("run.locked_out", { what: locked.what ?? "?" }) : isGivenUp ? word("run.given_up") : null;
}

/** Say it on the screen that stands, above all else; never on a count. */
function sayNotice() {
    scene.main.querySelector(".lock-notice")?.remove();
    if (scene.notice === null || "blind" in document.body.dataset || document.body.dataset.screen === "closed") return;
    scene.main.prepend(element("p", { class: "plate inverse lock-notice", role: "alert", text: scene.notice }));
}

/** A phone that is new to the run and in the hands of one of the two is theirs from now on. */
async function joinAsHolder() {
    const role = roleHere(scene);
    if (role === null || scene.invite !== null || isOffice() || !isNewHere(scene)) return;
    await keep("phone_joined", { role }, { person: scene.holder, role, shown: { item: scene.state.at } });
}

function sayMissing(key) {
    const look = element("button", { type: "button", class: "action", text: word("run.look_again"), click: () => location.reload() });
    show(scene, [title(word(key)), line(word(`${key}_text`)), joinLink()], [look]);
    return false;
}

/** A pause that this phone had begun and left starts again from its first item. */
async function interruptIfBrokenOff() {
    const { state, script } = scene;
    const part = state.screen === "item" ? itemNow(scene).part : "";
    if (!part.startsWith("pause-") || isOffice()) return;
    const ids = script.items.filter((item) => item.part === part).map((item) => item.id);
    const isBegun = ids.some((id) => state.items[id].done);
    const last = scene.events.filter((one) => one.kind === "entered" && ids.includes(one.entered.item)).at(-1);
    if (isBegun && last?.device === scene.device) {
        await keep("interrupted", { part }, { person: null, role: "becket", shown: { item: state.at } });
    }
}

/**
 * A wide screen with no way to touch it is a desk: it reads. A tablet is at the crane, however wide; so is every phone.
 */
function isOffice() {
    return !may("steps") || (matchMedia("(min-width: 1000px)").matches && !matchMedia("(any-pointer: coarse)").matches);
}

function isBefore({ script, state, local }) {
    return !local.begun && state.at === script.items[0].id && !script.items.some((item) => state.items[item.id]?.attempts.length)
        && !scene.events.some((one) => one.kind === "entered");
}

/** What was found on coming back stands until it is answered: always where it differs, else where there is a reason. */
function isResumed({ resume }) {
    return resume !== null && (resume.differs.length > 0 || resume.why.length > 0);
}

function isOpened({ local, run }) {
    return local.opened === run[itemNow(scene).who];
}

/** The other one has a phone of their own: that count is made there. */
function isElsewhere({ local }) {
    const item = itemNow(scene);
    return item.blind && local.handing !== item.id && !isOpened(scene) && hasOtherPhone(scene, item.who);
}

function isWrong({ state, local }) {
    const { attempts } = state.items[state.at];
    return attempts.length > 0 && !local.answered;
}

function isPad({ local }) {
    const item = itemNow(scene);
    return item.fields.length > 0 && (local.view === "pad" || (item.part.startsWith("pause-") && !item.picture && !item.moves));
}

/** Show another part of what stands. */
function go(change) {
    scene.local = { ...scene.local, problem: null, ...change };
    draw();
}

function draw() {
    const [name, , drawIt] = SCREENS.find(([, applies]) => applies(scene));
    const counting = COUNTING.includes(name) || (CROSSING.includes(name) && itemNow(scene)?.blind);
    const what = document.querySelector("[data-strap=what]");
    const { before, after, kind } = scene.script;
    const falls = (state) => (state ?? "?").split(":").at(-1);
    const isCount = counting || kind === "count";
    what.textContent = isCount ? word("run.count") : word("run.strap", { before: falls(before), after: falls(after) });
    document.title = word(isCount ? "run.count" : "run.title");
    document.body.dataset.screen = name;
    document.body.toggleAttribute("data-blind", counting); // strap.js then says no number
    document.body.dataset.item = counting ? "" : (scene.state.at ?? "");
    scene.seen = signature();
    drawIt(scene);
    if (PHOTO_ON.includes(name) && !counting) scene.main.append(photoButton(photoAbout));
    if (scene.isBookNewer && !counting && !NOT_GOING_ON.includes(name)) scene.main.prepend(line(word("run.book_changed"), "plate book-changed"));
    sayNotice();
    if (scene.local.problem) scene.main.prepend(element("p", { class: "plate inverse", role: "alert", text: scene.local.problem }));
    document.body.dataset.drawn = String(Number(document.body.dataset.drawn ?? 0) + 1);
}

/** What a photo that is taken now is of. */
function photoAbout() {
    const { id, crane } = scene.run;
    const item = itemNow(scene)?.id ?? null;
    return { crane, run: id, item, shown: { item, screen: document.body.dataset.screen } };
}

function signature() {
    const { state } = scene;
    return JSON.stringify([state.screen, state.at, state.rounds, state.signed, state.status]);
}

/** Keep an event; the next screen comes when the browser says that it is kept, not before. */
async function write(kind, entered, how = {}) {
    if (scene.busy) return;
    scene.busy = true;
    document.body.dataset.busy = "true";
    const agreed = scene.state.rounds_kept.length;
    const { item, round } = { item: scene.state.at, round: scene.state.rounds };
    try {
        await keep(kind, entered, { shown: { item, rounds: round, screen: document.body.dataset.screen }, ...how });
        if (!how.stay) follow(agreed);
    } catch (error) {
        scene.local.problem = word(error.word ?? "run.cannot_keep");
        draw();
    } finally {
        scene.busy = false;
        document.body.dataset.busy = "false";
    }
}

async function keep(kind, entered, { person, role, shown }) {
    const by = person === undefined ? await holder() : person;
    const asRole = role ?? ["operator", "rigger"].find((one) => scene.run[one] === by) ?? roleOfItem();
    const { id, crane } = scene.run;
    await put(await newEvent(kind, { crane, run: id, person: by, role: asRole, shown, entered }));
    await readAgain();
}

async function readAgain() {
    scene.events = await eventsOfRun(scene.run.id);
    await lookAtBook();
    await lookAtCrane();
    scene.holder = await holder();
    scene.invite = await inviteOf(scene);
    scene.state = askedHere(scene, foldRun(scene.script, scene.events));
}

/** Something came in that this phone has asked for: show what follows. */
async function again(change) {
    const compared = scene.state.rounds_kept.length;
    scene.local = { ...scene.local, ...change };
    await readAgain();
    follow(compared, change);
}

function roleOfItem() {
    const who = itemNow(scene)?.who;
    return who === "rigger" ? "rigger" : "operator";
}

/** Go on to what is next; whoever opened a count keeps it open while the next item is theirs too. */
function follow(compared, change = {}) {
    const newest = scene.state.rounds_kept.length > compared ? scene.state.rounds_kept.at(-1) : null;
    const { opened, begun, alone, elsewhere } = scene.local;
    scene.local = { begun, alone, elsewhere, agreed: newest?.agreed && newest.entries.length > 1 ? newest : null, ...change };
    const item = itemNow(scene);
    if (item?.blind && opened === scene.run[item.who]) scene.local.opened = opened;
    draw();
}

/** Something came in: say so, and leave the screen as it is until it is answered. */
async function lookAgain() {
    if (scene.busy || !scene.state) return;
    const events = await eventsOfRun(scene.run.id);
    await lookAtBook();
    await lookAtCrane();
    if (scene.busy) return;
    sayNotice();
    const old = scene.seen;
    scene.events = events;
    const state = askedHere(scene, foldRun(scene.script, events));
    if (JSON.stringify([state.screen, state.at, state.rounds, state.signed, state.status]) === old) {
        scene.state = state;
        if (state.screen === "closed") draw(); // what was still kept was sent
        return;
    }
    if (scene.main.querySelector(".went-on")) return;
    const see = element("button", { type: "button", class: "turn", text: word("run.elsewhere.show"), click: () => void again({}) });
    scene.main.prepend(element("p", { class: "plate went-on", role: "alert" }, element("b", { text: word("run.elsewhere") }), see));
}
