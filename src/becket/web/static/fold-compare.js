/*
 * What two persons saw, each alone, compared with each other and with what has to be.
 *
 * In:    a group of blind items, what each role entered in one round, the patterns that the script expects.
 * Out:   {why, finds}: why null: agreed; finds: the pattern that both counted.
 * Never: a count taken because it is near; a pattern that is not on file.
 *
 * The truth is guide/compare.py.
 */

import { filled, isAlike, isFree, isReadable, isSame, isWhole, runWord, whatIsWrong } from "./fold-reading.js";

export const COUNTERS = ["operator", "rigger"];
const COUNTED = ["sheaves", "ends_on", "ropes", "block_sheaves"];
const AGREED = { why: null, finds: null };

const COMPARE = { equal: compareEqual, falls: compareFalls, indicator: compareIndicator };

/**
 * Return whether the two sides of a round agree with each other and with what has to be.
 * @param {{script: object, group: object, sides: Object<string, object>, found: ?object, block: *}} counts
 * @returns {{why: ?string, finds: ?object}}
 */
export function compared(counts) {
    return COMPARE[counts.group.compare](counts);
}

/**
 * Return the falls that head sheaves with rope and the place of the dead end make; null: not readable.
 * @param {object} values
 * @returns {?number}
 */
export function fallsAtHead(values) {
    const { sheaves, ends_on: endsOn } = values;
    if (!isSheaves(sheaves) || !["head", "block"].includes(endsOn)) {
        return null;
    }
    return 2 * sheaves.length - (endsOn === "block" ? 1 : 0);
}

/**
 * Return every value that each role entered in a round.
 * @param {object[]} entries
 * @returns {Object<string, object>}
 */
export function merged(entries) {
    const sides = {};
    for (const { role, values } of entries) {
        sides[role] = { ...sides[role], ...values };
    }
    return sides;
}

function compareEqual(counts) {
    for (const asked of fieldsOf(counts)) {
        const field = withFoundEnd(counts, asked);
        const why = fieldDiffers(counts, field) ?? fieldIsWrong(counts, field);
        if (why !== null) {
            return { why, finds: null };
        }
    }
    return AGREED;
}

function withFoundEnd(counts, field) {
    if (field.name !== "place" || field.want !== null || counts.found === null) {
        return field;
    }
    return { ...field, want: counts.found.dead_end };
}

function compareFalls(counts) {
    const [operator, rigger] = COUNTERS.map((role) => counts.sides[role] ?? {});
    const [atHead, ropes, label] = [fallsAtHead(operator), rigger.ropes, `${counts.group.label}:`];
    if (atHead === null) {
        return notReadable(label, "operator");
    }
    if (!isWhole(ropes) || !isSheaves(atBlock(counts))) {
        return notReadable(label, "rigger");
    }
    if (atHead !== ropes) {
        return differ(label, atHead, ropes);
    }
    for (const field of fieldsOf(counts).filter((one) => !COUNTED.includes(one.name))) {
        const why = fieldDiffers(counts, field) ?? fieldIsWrong(counts, field);
        if (why !== null) {
            return { why, finds: null };
        }
    }
    return againstPattern(counts, atHead, operator.block ?? rigger.block ?? counts.block);
}

function atBlock(counts) {
    const isAsked = fieldsOf(counts).some((field) => field.name === "block_sheaves");
    return isAsked ? counts.sides.rigger?.block_sheaves : [];
}

function againstPattern(counts, falls, block) {
    const { script } = counts;
    const expects = script.expects.filter((one) => block === null || isSame(one.block, block));
    const forFalls = expects.filter((one) => one.falls === falls);
    if (forFalls.length === 0) {
        if (script.kind === "change" && expects.length === 1) {
            return { why: runWord("falls_not_pattern", { falls, want: expects[0].falls }), finds: null };
        }
        return { why: runWord("no_pattern", { falls }), finds: null };
    }
    const seen = { head: counts.sides.operator.sheaves, block: atBlock(counts) };
    const onPath = forFalls.find((one) => oddPlaces(one, seen).length === 0);
    if (onPath !== undefined) {
        return { why: null, finds: onPath };
    }
    if (forFalls.length > 1) {
        return { why: runWord("path_none", { falls }), finds: null };
    }
    const places = oddPlaces(forFalls[0], seen).join("; ");
    return { why: runWord("path_differs", { falls, places }), finds: null };
}

function oddPlaces(wanted, seen) {
    const told = [];
    for (const [place, sheaves] of [["head", wanted.head_sheaves], ["block", wanted.block_sheaves]]) {
        const more = seen[place].filter((one) => !sheaves.includes(one)).sort((a, b) => a - b);
        const less = sheaves.filter((one) => !seen[place].includes(one)).sort((a, b) => a - b);
        if (more.length || less.length) {
            const code = more.length && less.length ? "path_other" : more.length ? "path_more" : "path_less";
            told.push(runWord(code, { place, seen: more, want: less }));
        }
    }
    return told;
}

function compareIndicator(counts) {
    const fields = fieldsOf(counts);
    for (const field of fields) {
        const why = fieldDiffers(counts, field);
        if (why !== null) {
            return { why, finds: null };
        }
    }
    if (counts.found === null) {
        return { why: runWord("no_count"), finds: null };
    }
    const wants = new Map([["falls", counts.found.falls], ["block", counts.found.block]]);
    for (const field of fields) {
        const why = wants.has(field.name) ? settingIsWrong(counts, field, wants) : fieldIsWrong(counts, field);
        if (why !== null) {
            return { why, finds: null };
        }
    }
    return AGREED;
}

function settingIsWrong(counts, field, wants) {
    const [[, value]] = asked(counts, field);
    const want = wants.get(field.name);
    return isSame(value, want) ? null : runWord(`setting_${field.name}`, { value, want });
}

function fieldsOf({ script, group }) {
    const byName = new Map();
    for (const id of group.items) {
        for (const field of script.items.find((item) => item.id === id).fields) {
            if (!byName.has(field.name)) {
                byName.set(field.name, field);
            }
        }
    }
    return [...byName.values()];
}

function asked({ script, group, sides }, field) {
    const items = group.items.map((id) => script.items.find((item) => item.id === id));
    return COUNTERS.filter((role) =>
        items.some((item) => item.who === role && item.fields.some((one) => one.name === field.name)),
    ).map((role) => [role, sides[role]?.[field.name] ?? null]);
}

function fieldDiffers(counts, field) {
    if (isFree(field)) {
        return null;
    }
    const values = asked(counts, field);
    for (const [role, value] of values) {
        if (value === null || !isReadable(field, value)) {
            return notReadable(labelOf(field), role).why;
        }
    }
    if (values.length === 2 && !isAlike(field, values[0][1], values[1][1])) {
        return differ(labelOf(field), values[0][1], values[1][1]).why;
    }
    return null;
}

function fieldIsWrong(counts, field) {
    const values = asked(counts, field);
    for (const [role, value] of values) {
        const wrong = whatIsWrong(field, value);
        if (wrong === null) {
            continue;
        }
        const who = values.length === 2 ? "both" : "one";
        const facts = { label: labelOf(field), role, value, want: field.want };
        if (field.wrong) {
            return runWord(`${who}_wrong`, { ...facts, wrong: filled(field.wrong, facts) });
        }
        return field.want === null ? wrong : runWord(`${who}_not_wanted`, facts);
    }
    return null;
}

function labelOf(field) {
    return field.prompt.endsWith("?") ? field.prompt : `${field.prompt}:`;
}

function differ(label, operator, rigger) {
    return { why: runWord("differ", { label, operator, rigger }), finds: null };
}

function notReadable(label, role) {
    return { why: runWord("not_whole", { label, role }), finds: null };
}

function isSheaves(value) {
    return Array.isArray(value) && value.every(isWhole) && new Set(value).size === value.length;
}
