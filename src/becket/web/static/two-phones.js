/*
 * Two phones on one run: whose phone this is, whose count is made where, and a look at the server now and then.
 *
 * In:    the scene of a run; the events of this phone.
 * Out:   what stands on this phone; deliveries while the page is seen.
 * Never: a count asked on two phones at once; a screen that leaves by itself.
 */

import { partnersOf } from "./fold-turn.js";
import { counts, deliver } from "./outbox.js";

const ROLES = ["operator", "rigger"];
const OFTEN = 3_000; // ms between two looks while the page is seen
const SELDOM = 30_000; // ms, the longest wait while no server answers

/**
 * Look at the server now and then as long as the page is seen: every 3 s, ever more seldom while it does not answer.
 * What came in is told by `onChange` of outbox.js.
 * @param {() => boolean} isOver nothing more is to come
 */
export function keepLooking(isOver) {
    let [wait, timer] = [OFTEN, 0];
    const plan = () => {
        clearTimeout(timer);
        if (!isOver()) timer = setTimeout(look, wait);
    };
    const look = async () => {
        if (document.visibilityState === "visible") {
            await deliver();
            wait = (await counts()).state === "sent" ? OFTEN : Math.min(2 * wait, SELDOM);
        }
        plan();
    };
    const soon = () => {
        wait = OFTEN;
        plan();
    };
    addEventListener("online", soon);
    document.addEventListener("visibilitychange", soon);
    plan();
}

/**
 * Return whether a person has a phone of their own, and it is not this one: their last event of the run says so, or
 * somebody here did.
 * @param {{run: object, events: object[], device: string, holder: ?string, local: object}} scene
 * @param {"operator"|"rigger"} role
 * @returns {boolean}
 */
export function hasOtherPhone({ run, events, device, holder, local }, role) {
    const person = run[role];
    if (local.elsewhere === role) return true;
    const last = events.filter((one) => one.person === person).at(-1);
    return holder !== person && last !== undefined && last.device !== device;
}

/**
 * Return whether a person has ever written on another phone in this run: the phone that is handed over now may not be
 * the only one.
 * @param {{run: object, events: object[], device: string}} scene
 * @param {"operator"|"rigger"} role
 * @returns {boolean}
 */
export function hadOtherPhone({ run, events, device }, role) {
    return events.some((one) => one.person === run[role] && one.device !== device);
}

/**
 * Return whether this phone is new to the run: nothing of the run was written on it and nobody said whose it is.
 * @param {{events: object[], device: string, state: object, local: object}} scene
 * @returns {boolean}
 */
export function isNewHere({ events, device, state, local }) {
    return !local.alone && state.status !== "closed" && !events.some((one) => one.device === device);
}

/**
 * Return which of the two holds this phone, or null.
 * @param {{run: object, holder: ?string}} scene
 * @returns {"operator"|"rigger"|null}
 */
export function roleHere({ run, holder }) {
    return ROLES.find((role) => run[role] === holder) ?? null;
}

/**
 * Return the state with the item that is asked on this phone. Of two counts by lot either may be first: where the other
 * one has a phone of their own, each phone asks its own.
 * @param {object} scene
 * @param {object} state of the fold
 * @returns {object}
 */
export function askedHere(scene, state) {
    const item = scene.script.items.find((one) => one.id === state.at);
    if (state.screen !== "item" || !item?.blind || !hasOtherPhone(scene, item.who)) return state;
    const partner = scene.script.items.find((one) => one.id === partnersOf(scene.script).get(item.id));
    const isHere = partner?.blind && !hasOtherPhone(scene, partner.who) && !state.items[partner.id].done;
    return isHere ? { ...state, at: partner.id, round: state.items[partner.id].round } : state;
}

/**
 * Return whose signature is asked on this phone: first that of whoever holds it.
 * @param {object} scene
 * @returns {"operator"|"rigger"}
 */
export function signsHere(scene) {
    const open = ROLES.filter((role) => !scene.state.signed[role]);
    const here = roleHere(scene);
    return open.includes(here) && open.some((role) => hasOtherPhone(scene, role)) ? here : open[0];
}
