/*
 * A run as far as it has come: what the rules of fold-rules.js write down, and the state that follows from it.
 *
 * In:    a script; what the rules found.
 * Out:   the state of the run.
 * Never: a rule; one person's count shown before both are in.
 *
 * The truth is guide/course.py.
 */

import { whatIsMissing } from "./fold-closing.js";
import { COUNTERS } from "./fold-compare.js";
import { itemsInTurn, patternFound, pausesOf, SIGN } from "./fold-turn.js";

const SEALED = { sealed: true };
const NOT_DONE = { done: false, by: null, role: null, device: null, at: null, values: null };

/** One run, in the middle of being gone through. */
export class Course {
    /** @param {object} script */
    constructor(script) {
        this.script = script;
        this.turn = itemsInTurn(script, 0);
        this.rounds = new Map([...script.groups.map((group) => group.name), ...pausesOf(script)].map((name) => [name, 1]));
        this.people = Object.fromEntries(COUNTERS.map((role) => [role, null]));
        this.started = null;
        this.done = new Map();
        this.attempts = new Map();
        this.kept = [];
        this.complete = new Map();
        this.differ = null;
        this.followed = false;
        this.waiting = null;
        this.stop = null;
        this.resume = null;
        this.signed = new Map();
        this.closedBy = null;
        this.devices = new Set();
        this.counters = new Set();
        this.outOfTurn = [];
        this.late = [];
    }

    /** Return the first item that is not done; null: all are, or the run has not begun. */
    current() {
        return this.started === null ? null : (this.turn.find((item) => !this.isDone(item)) ?? null);
    }

    /** Return whether an item is done in its round; an item to sign is done when its person has signed. */
    isDone(item) {
        if (item.part === SIGN) {
            return COUNTERS.includes(item.who) ? this.signed.has(item.who) : this.signed.size === COUNTERS.length;
        }
        return this.done.has(item.id);
    }

    /** Return the round in which an item is asked. */
    roundOf(item) {
        return this.rounds.get(item.group || item.part) ?? 1;
    }

    /** Return whether nothing but the two signatures is asked. */
    isReadyToSign() {
        const item = this.current();
        const isPast = this.started !== null && (item === null || item.part === SIGN);
        return isPast && this.differ === null && this.waiting === null && this.stop === null;
    }

    /** Return whether the rope has to be followed by hand before both count again. */
    hasToFollow() {
        const differed = this.kept.filter((one) => one.group === this.differ?.group && !one.agreed);
        return differed.length >= 2 && !this.followed;
    }

    /** Return whether an item is counted alone and compared. */
    isBlind(item) {
        return item.blind && this.group(item.group) !== null;
    }

    /** Return a group by its name; null: there is none. */
    group(name) {
        return this.script.groups.find((group) => group.name === name) ?? null;
    }

    /** Return an item by its id. */
    item(id) {
        return this.script.items.find((item) => item.id === id);
    }

    /** Return the pattern that the counts found; null: none yet. */
    found() {
        return patternFound(this.script, this.rounds, this.kept);
    }

    /** Return the state that the counts found; null: none yet. */
    result() {
        return this.found()?.state ?? null;
    }

    /** Return the run as it is now. */
    state() {
        const state = this.bareState();
        return this.closedBy ? state : { ...state, missing: whatIsMissing(this.script, state) };
    }

    bareState() {
        const at = this.at();
        return {
            status: this.closedBy ? "closed" : this.stop ? "stopped" : "open",
            at: at?.id ?? null,
            round: at ? this.roundOf(at) : null,
            screen: this.screen(),
            order: this.turn.map((item) => item.id),
            items: Object.fromEntries(this.turn.map((item) => [item.id, this.itemState(item)])),
            rounds: Object.fromEntries(this.rounds),
            differ: this.differ,
            rounds_kept: [...this.kept],
            people: { ...this.people },
            stop: this.stop,
            resume: this.resume,
            signed: Object.fromEntries(this.signed),
            missing: [],
            devices: [...this.devices],
            one_device: this.counters.size === 1,
            out_of_turn: [...this.outOfTurn],
            late: [...this.late],
            started: this.started,
            ended: this.closedBy?.at ?? null,
            result: this.closedBy ? this.result() : null,
        };
    }

    at() {
        const group = this.differ ? this.differ.group : this.waiting;
        if (group === null || this.closedBy) {
            return this.current();
        }
        return this.turn.find((item) => item.group === group);
    }

    screen() {
        if (this.closedBy) {
            return "closed";
        }
        if (this.stop) {
            return "stopped";
        }
        if (this.differ) {
            return this.hasToFollow() ? "follow_by_hand" : "differ";
        }
        if (this.waiting) {
            return "waiting";
        }
        if (this.resume?.differs.length) {
            return "not_as_kept";
        }
        return this.isReadyToSign() ? "sign" : "item";
    }

    itemState(item) {
        const attempts = this.attempts.get(item.id) ?? [];
        const done = this.done.get(item.id) ?? this.signedItem(item);
        if (done === null) {
            return { ...NOT_DONE, round: this.roundOf(item), attempts };
        }
        const isHidden = this.isBlind(item) && this.complete.get(item.group) !== done.round;
        return { ...done, attempts, values: isHidden ? SEALED : done.values };
    }

    signedItem(item) {
        const one = item.part === SIGN ? this.signed.get(item.who) : undefined;
        if (one === undefined) {
            return null;
        }
        return { done: true, by: one.by, role: item.who, device: one.device, at: one.at, values: {}, round: 1 };
    }
}
