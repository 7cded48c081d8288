/*
 * What the account on this phone may do on a shared server.
 *
 * In:    <body data-may> of a page that the server made for the account.
 * Out:   yes or no; on a server without accounts, where a link opens the pages, always yes.
 * Never: a right: the server looks at every entry again.
 */

import { readMeta, writeMeta } from "./db.js";

/**
 * Return whether the account of this page may do something.
 * @param {string} action
 * @returns {boolean}
 */
export function may(action) {
    const { may: actions } = document.body.dataset;
    return actions === undefined || actions.split(" ").includes(action);
}

/**
 * Return the address at which the person signs in and comes back here; null where a link opens the pages.
 * @returns {?string}
 */
export function signInAddress() {
    const { pathname, search } = location;
    return document.body.dataset.shared === undefined ? null : `/sign-in?to=${encodeURIComponent(pathname + search)}`;
}

/**
 * Keep what the account may: the page of a run is one for every account, made when the phone first kept it.
 * @returns {Promise<void>}
 */
export async function rememberMay() {
    const { page, kept, shared, may: actions } = document.body.dataset;
    if (kept === undefined && page !== "run" && !(shared !== undefined && actions === "")) {
        await writeMeta("may", actions ?? null);
    }
}

/**
 * Take what the account may into the page of a run, as the last page that the server made said.
 * @returns {Promise<void>}
 */
export async function recallMay() {
    const actions = await readMeta("may");
    if (typeof actions === "string") {
        document.body.dataset.may = actions;
    } else {
        delete document.body.dataset.may;
    }
}
