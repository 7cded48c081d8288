/*
 * Now, brought up to what this phone knows: a page that was kept, or an entry that was not sent yet.
 *
 * In:    the page as the server made it; the events of this phone.
 * Out:   the plate of what is rigged, the open run, the lock-out, the verdict of the lift.
 * Never: a state older than the page's own; a plan made from another state left standing as if it were good.
 */

import { element } from "./element.js";
import { craneNow, foldRun } from "./fold.js";
import { momentWords } from "./moment.js";
import { counts, onChange } from "./outbox.js";
import { listed } from "./people.js";
import { wireStart } from "./start-run.js";
import { sayTrouble } from "./strap.js";
import { eventsOf, scriptsOf } from "./view.js";
import { word } from "./words.js";

const SHIFT = 12 * 3600_000; // ms; what was confirmed longer ago was confirmed in another shift
const opened = Date.now();
const crane = document.body.dataset.crane;
const page = readPage();

wireStart();
onChange(() => void lookAgain());
await lookAgain();

/** What the server said when it made the page. */
function readPage() {
    const plate = at("plate");
    const { kind, state, since } = plate.dataset;
    const run = at("go-on")?.getAttribute("href")?.split("/").at(-1) ?? "";
    return { kind, state, since, run, locked: at("locked") !== null };
}

async function lookAgain() {
    try {
        const events = await eventsOf(crane);
        if (await mayTell(events)) {
            tell(await known(events));
        }
        tellAge();
    } catch (error) {
        sayTrouble(error);
    }
}

/** A fresh page is newer than this phone until the feed was fetched after it, unless something was entered here. */
async function mayTell(events) {
    const isKept = document.body.dataset.kept !== undefined;
    if (isKept || events.some((one) => one.own && one.number === null)) {
        return events.length > 0;
    }
    const { state, sentAt } = await counts();
    return state === "sent" && Date.parse(sentAt) >= opened;
}

async function known(events) {
    const scripts = await scriptsOf(events);
    const now = craneNow(events, scripts);
    const names = Object.fromEntries(listed(events).map(({ id, name }) => [id, name]));
    const isOlder = page.since !== "" && !events.some((one) => one.kind === "signed" && isSame(one.at, page.since));
    return { ...now, names, isOlder, open: openRun(now, events, scripts) };
}

function openRun({ open_run: id, differs }, events, scripts) {
    const ofRun = events.filter((one) => one.run === id);
    const start = ofRun.find((one) => one.kind === "run_started");
    if (id === null || !start) {
        return null;
    }
    const script = scripts[start.entered.script];
    const state = script ? foldRun(script, ofRun) : null;
    const item = script?.items.find((one) => one.id === state.at) ?? null;
    return { id, ...start.entered, differs, item, isSigning: state?.screen === "sign", isStopped: state?.screen === "stopped" };
}

function tell(now) {
    const isOpen = now.open !== null;
    tellLock(now);
    if (isOpen) {
        drawOpen(now.open);
    } else if (!now.isOlder && now.state !== null) {
        drawKnown(now);
        tellLift(now.state);
        tellPlan(now.state);
    } else if (!now.isOlder && page.kind !== "not_known") {
        drawUnknown();
    }
    document.body.dataset.told = isOpen ? "open" : now.state ?? "not_known";
}

/* ---- the plate ---- */

function drawOpen(open) {
    if (page.kind === "open" && page.run === open.id) {
        at("open").textContent = openWords(open); // the step may have moved on
        return;
    }
    const sides = [open.before, open.after].map((state) => (state ? fallsOf(state) : "?"));
    const shown = open.kind === "count" ? "?" : sides.join("\u200a→\u200a");
    drawPlate("open", word("now.open"), [
        row(number(shown, "number number-half")),
        element("p", { class: "say", "data-now": "open", text: openWords(open) }),
    ]);
    const goOn = element("a", { class: "action", "data-now": "go-on", href: `/run/${encodeURIComponent(open.id)}`, text: word("now.go_on") });
    at("go-on")?.closest("p").remove();
    at("plate").after(element("p", {}, goOn));
    ["open-change", "next", "lift", "limit"].forEach(hide);
    document.querySelector("[data-change=start]")?.setAttribute("hidden", "");
}

function openWords({ differs, kind, item, isSigning, isStopped }) {
    if (differs) {
        return word("now.open.differ");
    }
    if (kind === "count") {
        return word("now.open.count");
    }
    if (isStopped) {
        return word("now.open.stopped");
    }
    const pause = item?.part.startsWith("pause-") ? item.part.slice("pause-".length) : null;
    if (item?.number) {
        return word("now.open.step", { step: item.number });
    }
    return pause ? word("now.open.pause", { pause }) : word(isSigning ? "now.open.sign" : "now.open.change");
}

function drawKnown({ state, since, by, names, indicator }) {
    if (page.kind === "known" && page.state === state && isSame(page.since, since)) {
        return;
    }
    const [block, falls] = [blockOf(state), fallsOf(state)];
    const set = indicator ? settingWords(indicator, block) : "?";
    const people = by.map((id) => names[id] ?? id);
    drawPlate("known", word("now.rigged"), [
        row(
            number(falls, "number"),
            element(
                "div",
                { class: "rigged-words" },
                element("p", { class: "say" }, word(falls === "1" ? "now.fall" : "now.falls"), element("br"), word("now.block", { block })),
                element("p", {}, `${word("now.indicator")} `, element("b", { "data-now": "indicator", text: set })),
                element("p", {}, `${word("now.and", { first: people[0], last: people[1] })}, ${momentWords(since)}`),
            ),
        ),
        element("p", { class: "older", "data-now": "older", hidden: true }, element("b", { text: word("now.older", { when: momentWords(since) }) })),
    ]);
    at("plate").dataset.olderAfter = new Date(Date.parse(since) + SHIFT).toISOString();
    at("go-on")?.closest("p").remove();
    document.querySelector("[data-change=start]")?.setAttribute("hidden", "");
    const isUnlike = indicator && (String(indicator.falls) !== falls || ![null, undefined, block].includes(indicator.block));
    at("differs")?.remove();
    if (isUnlike) {
        const text = word("now.differs", { set, rigged: falls });
        at("plate").before(element("p", { class: "plate inverse", "data-now": "differs", role: "alert", text }));
    }
    hide("limit");
}

function drawUnknown() {
    drawPlate("not_known", word("now.rigged"), [
        row(number("?", "number"), element("p", { class: "say", "data-now": "unknown", text: word("now.not_known") })),
    ]);
    at("go-on")?.closest("p").remove();
    ["open-change", "next", "limit"].forEach(hide);
}

function drawPlate(kind, label, parts) {
    const plate = at("plate");
    plate.dataset.kind = kind;
    plate.classList.toggle("hatch", kind !== "known");
    plate.replaceChildren(element("h1", { class: "label", text: label }), ...parts);
}

/* ---- what hangs on it ---- */

/** A lock-out that this phone knows of stands; one that an inspection has ended here is taken away. */
function tellLock({ locked, names }) {
    if ((locked !== null) === (at("locked") !== null)) {
        return;
    }
    at("locked")?.remove();
    if (locked === null) {
        return;
    }
    const key = `now.locked.${String(locked.what).replaceAll(/[ -]/g, "_")}`;
    const text = word(key) === key ? word("now.locked.other") : word(key);
    const plate = element(
        "section",
        { class: "plate inverse stack", "data-now": "locked", role: "alert" },
        element("p", { text }),
        element("p", { class: "small", text: word("now.locked.when", { when: momentWords(locked.at), by: names[locked.by] ?? "?" }) }),
        element("p", { class: "small", text: word("now.locked.until") }),
    );
    at("plate").before(plate);
    hide("open-change");
}

function tellLift(state) {
    const lift = at("lift");
    if (!lift || state === page.state) {
        return;
    }
    const names = (list) => (list ?? "").split(" ");
    const isPass = names(lift.dataset.pass).includes(state);
    const verdict = isPass ? "pass" : names(lift.dataset.fail).includes(state) ? "fail" : "unknown";
    const tag = element("span", { class: `verdict ${verdict}`, text: word(`base.verdict.${verdict}`) });
    at("verdict")?.remove();
    lift.append(element("span", { "data-now": "verdict" }, tag));
    lift.classList.toggle("this", !isPass);
}

/** The plan was made from the state that hung then: from another one its next change is not the next change. */
function tellPlan(state) {
    if (page.kind === "known" && page.state === state) {
        return;
    }
    ["next", "open-change", "ahead"].forEach(hide);
    if (!at("plan-old")) {
        const text = word("who.plan_old");
        document.querySelector("main").append(element("p", { class: "plate hatch", "data-now": "plan-old", text }));
    }
}

function tellAge() {
    const { olderAfter } = at("plate").dataset;
    const older = at("older");
    if (older && olderAfter) {
        older.hidden = Date.now() < Date.parse(olderAfter);
    }
}

/* ---- small things ---- */

function at(name) {
    return document.querySelector(`[data-now="${name}"]`);
}

function hide(name) {
    at(name)?.setAttribute("hidden", "");
}

function row(...parts) {
    return element("div", { class: "rigged-row" }, ...parts);
}

function number(text, kind) {
    return element("p", { class: kind, "data-now": "falls", text });
}

function settingWords({ falls, block }, rigged) {
    return block === undefined || block === null || block === rigged ? String(falls) : `${falls}, ${block}`;
}

function blockOf(state) {
    return state.slice(0, state.lastIndexOf(":"));
}

function fallsOf(state) {
    return state.slice(state.lastIndexOf(":") + 1);
}

function isSame(one, other) {
    return Date.parse(one) === Date.parse(other);
}
