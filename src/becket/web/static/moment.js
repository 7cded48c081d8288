/*
 * A moment in words, as the clock of the device that wrote it told it.
 *
 * In:    ISO 8601 with an offset.
 * Out:   "Mon 30 Nov 15:31".
 * Never: another time zone than that of the device.
 */

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/**
 * Return day, hour and minute of a moment.
 * @param {string} moment as 2026-11-30T15:31:20+01:00
 * @returns {string}
 */
export function momentWords(moment) {
    const [year, month, day] = moment.slice(0, 10).split("-").map(Number);
    const weekday = new Date(Date.UTC(year, month - 1, day)).getUTCDay();
    return `${DAYS[weekday]} ${day} ${MONTHS[month - 1]} ${moment.slice(11, 16)}`;
}
