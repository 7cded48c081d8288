/*
 * Before a run: who leads, who helps, whose hands the phone is in.
 *
 * In:    what the button asked for; the crew list.
 * Out:   a run with two persons, its lot drawn; the page of that run.
 * Never: one person twice; a run on a crane that is locked out or has one open.
 */

import { randomName, readMeta } from "./db.js";
import { element } from "./element.js";
import { craneNow } from "./fold.js";
import { put } from "./outbox.js";
import { digitsPad } from "./pad.js";
import { checkDigits, crew, holder, setHolder } from "./people.js";
import { action, line, show, title } from "./screen.js";
import { STARTING } from "./start-run.js";
import { joinLink } from "./two-phones-screens.js";
import { eventsOf, newEvent, scriptOf, scriptsOf } from "./view.js";
import { word } from "./words.js";

/**
 * Ask what a run needs, then begin it.
 * @param {{main: HTMLElement, foot: HTMLElement}} scene
 */
export async function startRun(scene) {
    const asked = await readMeta(STARTING);
    const script = asked ? await scriptOf(asked.script) : null;
    if (!script) {
        refuse(scene, asked ? "run.no_script" : "run.start.nothing");
        return;
    }
    const events = await eventsOf(asked.crane);
    const now = craneNow(events, await scriptsOf(events));
    document.querySelector("[data-strap=what]").textContent = script.crane_name;
    const begin = { scene, asked, script, people: await crew() };
    if (now.locked) refuse(scene, "run.start.locked", `/c/${asked.crane}/now`);
    else if (now.open_run) refuse(scene, "run.start.open", `/run/${now.open_run}`);
    else askLeader(begin);
}

function refuse(scene, key, href = "/") {
    show(scene, [title(word(key)), line(word(`${key}_text`))], [element("a", { class: "action", href, text: word("run.go_on") })]);
}

function askLeader(begin) {
    askPerson(begin, "run.start.leads", begin.people, (leader) => askHelper({ ...begin, leader }));
}

function askHelper(begin) {
    const others = begin.people.filter((one) => one.id !== begin.leader.id);
    askPerson(begin, "run.start.helps", others, (helper) => showBoth({ ...begin, helper }));
}

function askPerson({ scene }, key, people, chosen) {
    const plates = people.map((person) => action([person.name, credentials(person)], () => chosen(person), "action second name-plate"));
    show(scene, [
        title(word(key)),
        people.length === 0 && line(word("run.start.nobody")),
        ...plates,
        element("p", {}, element("a", { class: "link", href: "/who", text: word("run.start.not_listed") })),
        element("p", {}, joinLink()),
    ], []);
}

function credentials(person) {
    return word("run.start.person", { role: word(`run.roles.${person.role}`), licence: person.licence || word("run.no_licence") });
}

function showBoth(begin) {
    const { scene, leader, helper, script } = begin;
    const rows = [["run.leads", leader], ["run.helps", helper]].map(([key, person]) => element("div", {},
        element("dt", { text: word(key) }), element("dd", { text: `${person.name}, ${person.licence || word("run.no_licence")}` })));
    show(scene, [
        title(word("run.start.both")),
        element("dl", { class: "facts" }, ...rows),
        line(word("run.start.manual", { manual: script.manual })),
    ], [
        action(word("run.start.begin"), () => askHolder(begin)),
        action(word("run.start.others"), () => askLeader(begin), "action second"),
    ]);
}

/** The phone is in the hands of one of the two: their digits say whose. */
function askHolder(begin) {
    const { scene, leader, helper } = begin;
    const said = element("p", { class: "said", role: "alert", text: word("run.start.holder_text") });
    const pad = digitsPad(async (digits) => {
        const found = (await checkDigits(leader.id, digits)) ? leader : (await checkDigits(helper.id, digits)) ? helper : null;
        if (found) {
            await setHolder(found.id);
            await beginNow(begin);
            return;
        }
        said.textContent = word("run.start.holder_wrong");
        said.classList.add("say");
        pad.clear();
    });
    show(scene, [title(word("run.start.holder")), said, pad.node], []);
}

async function beginNow(begin) {
    const { asked, leader, helper } = begin;
    const run = `r-${randomName(8)}`;
    const [lot] = crypto.getRandomValues(new Uint32Array(1));
    const { kind, script, book, before, after, crane } = asked;
    const entered = { kind, script, book, before, after, operator: leader.id, rigger: helper.id, lot, why: asked.why ?? "" };
    const by = await holder();
    const shown = { screen: "start", names: [leader.name, helper.name], licences: [leader.licence, helper.licence] };
    try {
        await put(await newEvent("run_started", { crane, run, role: by === helper.id ? "rigger" : "operator", shown, entered }));
    } catch (error) {
        begin.scene.main.prepend(element("p", { class: "plate inverse", role: "alert", text: word(error.word ?? "run.cannot_keep") }));
        return;
    }
    location.replace(`/run/${run}`);
}
