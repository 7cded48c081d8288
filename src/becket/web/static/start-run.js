/*
 * The button that begins a change or a count: it opens the screen that asks who leads and who helps.
 *
 * In:    [data-change=start] on the page: crane, kind, script, states, book, where the plan has it and who pays.
 * Out:   what was asked for, kept for the next screen.
 * Never: a run that nobody has named two people for.
 */

import { writeMeta } from "./db.js";
import { may } from "./may.js";

/** Where the next screen finds what was asked for. */
export const STARTING = "starting";

/** Show the button and make it work. */
export function wireStart() {
    const asked = document.querySelector("[data-change=start]");
    const button = asked?.querySelector("[data-change=button]");
    if (!button || !may("steps")) return;
    button.hidden = false;
    button.addEventListener("click", async () => {
        const { crane, kind, script, before, after, book, why } = asked.dataset;
        await writeMeta(STARTING, { crane, kind, script, before: before || null, after: after || null, book, why });
        location.assign("/run/start");
    });
}
