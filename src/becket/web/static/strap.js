/*
 * The strap: signal and kept items, at the top of every page.
 *
 * In:    how the last try to reach the server went; what is kept and refused.
 * Out:   words in the strap of the page.
 * Never: a number or a name during a count; a claim of the browser that it is online.
 */

import { drawn, element } from "./element.js";
import { signInAddress } from "./may.js";
import { counts, onChange } from "./outbox.js";
import { word } from "./words.js";

const BARS = "M3 19v-4M8 19V11M13 19V7M18 19V3";
const STROKE = "M2 2l18 17";

/**
 * Fill the strap of this page and keep it true.
 * @returns {Promise<void>}
 */
export async function startStrap() {
    onChange(() => void fillStrap());
    new MutationObserver(() => void fillStrap()).observe(document.body, { attributeFilter: ["data-blind"] });
    sayAge(document.body.dataset.kept);
    await fillStrap();
}

/**
 * Return the words of the strap about signal and kept items.
 * @param {{kept: number, refused: number, state: string, sentAt: ?string}} now of `counts`
 * @returns {string}
 */
export function strapWords({ kept, refused, state, sentAt, others }) {
    if (refused > 0) {
        return word("strap.refused", { number: refused });
    }
    if (state === "signed_out") {
        const key = signInAddress() === null ? "strap.signed_out" : "strap.sign_in";
        return word(kept > 0 ? `${key}_kept` : key, { number: kept });
    }
    if (state === "no_signal" || state === "trouble") {
        const key = state === "trouble" ? "strap.trouble" : "strap.no_signal";
        return word(kept > 0 ? `${key}_kept` : key, { number: kept });
    }
    if (kept > 0) {
        return word(others ? "strap.others" : "strap.kept", { number: kept });
    }
    const isOutside = document.body.dataset.page === "sign-in" || document.body.dataset.page === "invited";
    return sentAt && !isOutside ? word("strap.all_sent", { time: clock(sentAt) }) : "";
}

/**
 * Return hours and minutes of a moment, by this phone's clock.
 * @param {string} moment ISO 8601
 * @returns {string} as 13:02
 */
export function clock(moment) {
    const at = new Date(moment);
    return `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
}

/**
 * Say across the page, until it is answered, that something could not be kept. The page stays as it is.
 * @param {Error & {word?: string}} error of `put`
 * @returns {void}
 */
export function sayTrouble(error) {
    document.querySelector("#trouble-said")?.remove();
    const text = word(error.word ?? "strap.cannot_keep_broken");
    const answered = () => plate.remove();
    const plate = element(
        "div",
        { id: "trouble-said", class: "plate inverse", role: "alert" },
        element("p", { class: "say", text }),
        element("button", { class: "action second", type: "button", text: word("strap.read"), click: answered }),
    );
    (document.querySelector("main") ?? document.body).prepend(plate);
    plate.lastChild.focus();
    if (!error.word) {
        console.error(error);
    }
}

/** A page that came from this phone says so above the foot, where nothing moves for it. */
function sayAge(keptAt) {
    if (keptAt) {
        const text = word("strap.page_of", { time: dayAndClock(keptAt) });
        document.body.append(element("p", { class: "page-age", text }));
    }
}

function dayAndClock(moment) {
    const at = new Date(moment);
    const isToday = at.toDateString() === new Date().toDateString();
    const day = at.toLocaleDateString(document.documentElement.lang, { day: "numeric", month: "short" });
    return isToday ? clock(moment) : `${day} ${clock(moment)}`;
}

async function fillStrap() {
    const place = document.querySelector("[data-strap=signal]");
    if (!place) {
        return;
    }
    let now;
    try {
        now = await counts();
    } catch (error) {
        place.replaceChildren(word(error.word ?? "strap.cannot_keep_broken"));
        return;
    }
    const isCount = document.body.dataset.blind !== undefined;
    const text = isCount ? word("strap.count") : strapWords(now);
    const isDown = now.state !== "sent" && now.state !== "new";
    place.replaceChildren(...(text === "" ? [] : [icon(isDown), document.createTextNode(text)]));
    place.hidden = text === "";
    const crane = document.body.dataset.crane;
    const kept = crane ? `/kept?crane=${encodeURIComponent(crane)}` : "/kept";
    place.setAttribute("href", (now.state === "signed_out" && now.refused === 0 && signInAddress()) || kept);
    if (isCount) {
        place.removeAttribute("href"); // nothing leads out of a count but its own buttons
    }
}

function icon(isDown) {
    const bars = drawn("path", { d: isDown ? BARS + STROKE : BARS });
    const how = { fill: "none", stroke: "currentColor", "stroke-width": "2.6" };
    return drawn("svg", { viewBox: "0 0 22 20", "aria-hidden": "true", ...how }, bars);
}
