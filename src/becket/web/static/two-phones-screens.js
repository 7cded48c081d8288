/*
 * The screens of two phones: whose phone this is, waiting for the other count, the codes where no phone has a signal.
 *
 * In:    the scene.
 * Out:   screens; who has joined; codes shown and read.
 * Never: a code that holds a count before both are hidden; a number in words.
 */

import { changeMeta, randomName, readMeta, writeMeta } from "./db.js";
import { element } from "./element.js";
import { put } from "./outbox.js";
import { qrPicture } from "./qr.js";
import { action, itemNow, line, nameOf, show, stopKey, title } from "./screen.js";
import { drawDigits } from "./screen-handover.js";
import { drawFields } from "./screen-pad.js";
import { CodeError, hasProof, invitation, keepProof, keepStart, keepWhole, openedEntry, proof, readCode, whole } from "./two-phones-code.js";
import { codeReader } from "./two-phones-read.js";
import { eventsOfRun, newEvent, rememberCrane, scriptOf } from "./view.js";
import { personOf } from "./people.js";
import { word } from "./words.js";

const ROLES = ["operator", "rigger"];

/**
 * Ask which of the two has this phone.
 * @param {object} scene
 */
export function drawJoin(scene) {
    const { joining } = scene.local;
    if (joining) {
        const names = { name: nameOf(scene, scene.run[joining]), role: word(`run.role.${joining}`) };
        drawDigits(scene, {
            role: joining,
            hatched: false,
            title: [word("two.join.digits", names)],
            text: word("two.join.digits_text", names),
            ask: word("run.your_digits", { Role: word(`run.Role.${joining}`), role: names.role }),
            opened: () => scene.write("phone_joined", { role: joining }, { person: scene.run[joining], role: joining }),
            foot: [action(word("two.back"), () => scene.go({ joining: null }), "action second")],
        });
        return;
    }
    const plates = ROLES.map((role) => action(
        [nameOf(scene, scene.run[role]), word(`run.Role.${role}`)], () => scene.go({ joining: role }), "action second name-plate"));
    show(scene, [
        title(word("two.join.title")),
        line(word("two.join.text")),
        ...plates,
        action(word("two.join.neither"), () => scene.go({ alone: true }), "action second name-plate"),
    ], []);
}

/**
 * Show that the other one counts on the other phone.
 * @param {object} scene
 */
export function drawWaiting(scene) {
    const isIn = scene.state.screen === "waiting";
    const role = word(`run.role.${itemNow(scene).who}`);
    const isPair = scene.script.groups.find((one) => one.name === itemNow(scene).group).items.length === ROLES.length;
    const hatched = () => element("div", { class: "hatched-line", "aria-hidden": "true" });
    show(scene, [
        hatched(),
        element("h1", { class: "do hand-over", tabindex: "-1", text: word("two.waiting") }),
        line(isIn ? word("two.waiting_sealed") : word("two.waiting_text", { role })),
        hatched(),
        !isPair && line(word("two.no_code")),
        isPair && action(word("two.no_signal"), () => scene.go({ codes: isIn ? "seal" : "invite" }), "action second"),
    ], [stopKey(scene), !isIn && action(word("two.by_hand"), () => scene.go({ handing: itemNow(scene).id, elsewhere: null }))]);
}

/**
 * Show a code for the other phone, or what reads one.
 * @param {object} scene
 */
export function drawCodes(scene) {
    const draw = { invite: drawInvitation, seal: drawOwnProof, read: drawRead, value: drawOwnValue }[scene.local.codes];
    draw(scene);
}

function drawInvitation(scene) {
    const item = itemNow(scene);
    const start = scene.events.find((one) => one.kind === "run_started");
    const tick = Math.max(...scene.events.map((one) => one.tick));
    const text = invitation(start, { item: item.id, round: scene.state.items[item.id].round, tick });
    drawCode(scene, {
        name: "invite",
        text,
        says: text ? word("two.invite.text", { role: word(`run.role.${item.who}`) }) : word("two.invite.cannot"),
        foot: [action(word("two.back"), () => scene.go({ codes: null }), "action second"),
            action(word("two.read.hidden"), () => scene.go({ codes: "read" }))],
    });
}

/** The own entry of the group that waits: this phone's side of the two. */
function ownEntry(scene) {
    const asked = scene.invite ? scene.script.items.find((one) => one.id === scene.invite.item) : itemNow(scene);
    const round = scene.invite?.round ?? scene.state.items[asked.id].round;
    const items = scene.script.groups.find((one) => one.name === asked.group)?.items ?? [];
    return scene.events.filter((one) => one.kind === "entered" && one.device === scene.device
        && items.includes(one.entered.item) && one.entered.round === round).at(-1) ?? null;
}

async function drawOwnProof(scene) {
    const own = await openedEntry(ownEntry(scene)?.key ?? "");
    drawCode(scene, {
        name: "seal",
        text: own && (await proof(own)),
        says: word("two.seal.text"),
        foot: [!scene.invite && action(word("two.back"), () => scene.go({ codes: null }), "action second"),
            action(word("two.seal.next"), () => scene.go({ codes: "read" }))],
    });
}

async function drawOwnValue(scene) {
    const entry = ownEntry(scene);
    const isBoth = entry !== null && (await hasOthersProof(scene, entry));
    const own = isBoth ? await openedEntry(entry.key) : null;
    drawCode(scene, {
        name: "value",
        text: own && whole(own),
        says: word("two.value.text"),
        foot: [action(word("two.value.done"), () => void endInvite(scene))],
    });
}

/** The other one's count of the same group and round is hidden, and this phone has its proof. */
async function hasOthersProof({ script, events, device }, own) {
    const items = script.groups.find((one) => one.items.includes(own.entered.item)).items;
    const others = events.filter((one) => one.kind === "entered" && one.device !== device && one.person !== own.person
        && one.entered.item !== own.entered.item && items.includes(one.entered.item) && one.entered.round === own.entered.round);
    const found = await Promise.all(others.map((one) => hasProof(one.key)));
    return found.includes(true);
}

function drawCode(scene, { name, text, says, foot }) {
    show(scene, [
        title(word(`two.${name}.title`)),
        text && qrPicture(text, word("two.code")),
        line(says),
    ], foot);
}

function drawRead(scene) {
    show(scene, [
        title(word("two.read.title")),
        codeReader((text) => take(scene, text)),
    ], [action(word("two.back"), () => scene.go({ codes: scene.invite ? "seal" : null }), "action second")]);
}

/** Take a code on the page of a run; return what is wrong, in words. */
async function take(scene, text) {
    try {
        const code = readCode(text);
        if ((code.event ?? code.start).run !== scene.run.id) throw new CodeError("other_run");
        if (code.kind === "i") throw new CodeError(scene.invite ? "own" : "not_now");
        await takeEntry(scene, code);
        if (scene.invite) await changeMeta(`invite:${scene.run.id}`, (old) => ({ ...old, codes: "value" }));
        await scene.again({ codes: scene.invite ? "value" : code.kind === "h" ? "seal" : null });
        return null;
    } catch (error) {
        const item = itemNow(scene);
        return word(error.word ?? "run.cannot_keep", { role: item ? word(`run.role.${item.who}`) : "" });
    }
}

/**
 * Keep the proof or the whole of the other one's entry, where it is the one that is waited for.
 * @param {{script: object, run: object, events: object[], device: string}} scene
 * @param {object} code
 * @returns {Promise<void>}
 */
export async function takeEntry({ script, run, events, device }, { kind, event, hash }) {
    const item = script.items.find((one) => one.id === event.entered.item);
    if (event.device === device) throw new CodeError("own");
    if (!item?.blind || event.person !== run[item.who]) throw new CodeError("not_theirs");
    if (kind === "h") {
        await keepProof({ event, hash });
        return;
    }
    const items = script.groups.find((one) => one.name === item.group).items;
    const isOwnIn = events.some((one) => one.kind === "entered" && one.device === device && one.entered.item !== item.id
        && items.includes(one.entered.item) && one.entered.round === event.entered.round);
    if (!isOwnIn) throw new CodeError("not_hidden");
    await keepWhole(event);
}

/* ---- the phone that was invited ---- */

/**
 * Return the way to the page that reads the code of a phone on which the run is open.
 * @returns {HTMLElement}
 */
export function joinLink() {
    return element("a", { class: "link", href: "/run/join", text: word("two.read.join") });
}

/**
 * Show the page that joins by code: a link that the camera of the phone has opened, or what reads one.
 * @param {{main: HTMLElement, foot: HTMLElement}} scene
 * @returns {Promise<void>}
 */
export async function joinByCode(scene) {
    const join = async (text) => {
        try {
            location.replace(await joined(readCode(text)));
            return null;
        } catch (error) {
            return word(error.word ?? "run.cannot_keep", { role: error.role ?? "" });
        }
    };
    const { hash } = location;
    history.replaceState(null, "", location.pathname); // a code stays in no address
    const wrong = hash ? await join(hash) : "";
    if (wrong === null) return;
    show(scene, [title(word("two.read.title")), wrong && line(wrong, "say"), codeReader(join)], []);
}

/** Keep what a code says; return the page that goes on. */
async function joined(code) {
    const { run } = code.event ?? code.start;
    if (code.kind === "i") {
        await invited(code);
    } else {
        const events = await eventsOfRun(run);
        const start = events.find((one) => one.kind === "run_started");
        const script = start && (await scriptOf(start.entered.script));
        if (!script) throw new CodeError(start ? "no_script" : "no_start");
        await takeEntry({ script, run: start.entered, events, device: await readMeta("device") }, code);
        if (await readMeta(`invite:${run}`)) await changeMeta(`invite:${run}`, (old) => ({ ...old, codes: "value" }));
    }
    return `/run/${encodeURIComponent(run)}`;
}

async function invited({ start, item, round, tick }) {
    const script = await scriptOf(start.entered.script);
    if (!script) throw new CodeError("no_script");
    const asked = script.items.find((one) => one.id === item);
    if (!asked?.blind) throw new CodeError("no_code");
    if (start.device === (await readMeta("device"))) throw new CodeError("own");
    if (!(await personOf(start.entered[asked.who]))) {
        throw Object.assign(new CodeError("no_person"), { role: word(`run.role.${asked.who}`) });
    }
    await rememberCrane(start.crane);
    await keepStart(start);
    await writeMeta(`invite:${start.run}`, { item, round, tick });
}

/**
 * Return the invitation that this phone has taken and not yet answered; null: none, or both counts came in another way.
 * @param {{run: object, script: object, events: object[]}} scene
 * @returns {Promise<?{item: string, round: number, tick: number, codes?: string}>}
 */
export async function inviteOf({ run, script, events }) {
    const invite = (await readMeta(`invite:${run.id}`)) ?? null;
    const group = script.groups.find((one) => one.items.includes(invite?.item));
    const isIn = (item) => events.some(({ kind, entered }) => kind === "entered" && entered.item === item
        && entered.round === invite.round && entered.sealed !== true);
    return group?.items.every(isIn) ? null : invite;
}

/**
 * Show the count that this phone was invited to, then its codes.
 * @param {object} scene
 */
export function drawInvited(scene) {
    const { script, invite, local } = scene;
    const item = script.items.find((one) => one.id === invite.item);
    if (ownEntry(scene)) {
        drawCodes({ ...scene, local: { ...local, codes: local.codes ?? invite.codes ?? "seal" } });
    } else if (local.opened === scene.run[item.who]) {
        const keep = (values) => void keepInvited(scene, item, values);
        drawFields(scene, { item, fields: item.fields, top: [], done: word("run.hide"), keep });
    } else {
        const names = { role: word(`run.role.${item.who}`), Role: word(`run.Role.${item.who}`) };
        drawDigits(scene, {
            role: item.who,
            hatched: true,
            title: [word("two.invited.title", names)],
            text: word("two.invited.text", names),
            ask: word("run.your_digits", names),
            opened: () => scene.go({ opened: scene.run[item.who] }),
            foot: [],
        });
    }
}

/** Keep the count: it sorts behind all that the other phone had written when it showed its code. */
async function keepInvited(scene, item, values) {
    if (scene.busy) return;
    const { invite, run } = scene;
    const made = await newEvent("entered", {
        crane: run.crane, run: run.id, person: run[item.who], role: item.who,
        shown: { item: item.id, screen: "blind", by: "code" },
        entered: { item: item.id, round: invite.round, values, nonce: randomName() },
    });
    try {
        await put({ ...made, tick: Math.max(made.tick, invite.tick + 1) }, { blind: true });
        await scene.again({ codes: "seal" });
    } catch (error) {
        scene.go({ problem: word(error.word ?? "run.cannot_keep") });
    }
}

async function endInvite(scene) {
    await writeMeta(`invite:${scene.run.id}`, null);
    await scene.again({ codes: null });
}
