/*
 * The time between two moments, as the clocks of the devices tell it.
 *
 * In:    moments as a device wrote them down, ISO 8601 with offset.
 * Out:   seconds.
 * Never: the time now; a clock put right.
 *
 * The truth is guide/moment.py.
 */

const MOMENT =
    /^([0-9]{4})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2}):([0-9]{2})(?:\.[0-9]{1,6})?(Z|[+-][0-9]{2}:[0-9]{2})$/;

/**
 * Return the time from the first moment to the second, whole seconds; null: one of them is no moment.
 * @param {string} first
 * @param {string} second
 * @returns {?number}
 */
export function secondsBetween(first, second) {
    const [one, other] = [seconds(first), seconds(second)];
    return one === null || other === null ? null : other - one;
}

function seconds(text) {
    const found = MOMENT.exec(text);
    if (found === null) {
        return null;
    }
    const [year, month, day, hour, minute, second] = found.slice(1, 7).map(Number);
    if (year < 1000 || month < 1 || month > 12) {
        return null;
    }
    const days = Date.UTC(year, month - 1, 1) / 86400000 + day - 1;
    return days * 86400 + hour * 3600 + minute * 60 + second - offset(found[7]);
}

function offset(text) {
    if (text === "Z") {
        return 0;
    }
    const size = Number(text.slice(1, 3)) * 3600 + Number(text.slice(4, 6)) * 60;
    return text.startsWith("-") ? -size : size;
}
