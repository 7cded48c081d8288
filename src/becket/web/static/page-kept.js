/*
 * What this phone keeps: entries not sent yet, entries that were refused.
 *
 * In:    outbox and refused list of this phone.
 * Out:   both in words; a button that sends, one that prints.
 * Never: a hidden count in the clear; a refused entry thrown away.
 */

import { element } from "./element.js";
import { signInAddress } from "./may.js";
import { counts, deliver, keptItems, onChange, refusedItems, tryAgain } from "./outbox.js";
import { crew } from "./people.js";
import { photoItems, tryPhotoAgain } from "./photos.js";
import { storageState } from "./storage.js";
import { clock, sayTrouble } from "./strap.js";
import { hasWord, word } from "./words.js";

const place = document.querySelector("#kept");
let names = {};

onChange(() => void fill().catch(sayTrouble));
await fill().catch(sayTrouble);

async function fill() {
    const [now, waiting, refused, photos, people, disk] = await Promise.all([
        counts(), keptItems(), refusedItems(), photoItems(), crew(), storageState(),
    ]);
    names = Object.fromEntries(people.map((one) => [one.id, one.name]));
    const focused = document.activeElement?.dataset?.act;
    place.replaceChildren(
        element("h1", { tabindex: "-1", text: word("kept.title") }),
        element("p", { class: "say", "data-kept": now.kept, text: howMany(now.kept, refused.length) }),
        element("p", { text: word(`kept.state.${stateOf(now)}`, { time: now.triedAt ? clock(now.triedAt) : "" }) }),
        stateOf(now) === "sign_in" ? element("a", { class: "action", href: signInAddress(), text: word("accounts.sign_in") }) : "",
        now.kept > 0 && now.others ? element("p", { class: "plate inverse", text: now.others }) : "",
        element("button", { class: "action", type: "button", "data-act": "send", text: word("kept.send"), click: () => void deliver() }),
        ...list("kept.refused", "kept.refused_about", refused, refusedItem),
        ...(refused.length > 1 ? [allAgain(refused)] : []),
        ...list("kept.photos", "kept.photos_about", photos, photoItem),
        ...list("kept.waiting", null, waiting, (event) => item(isOfCount(event, waiting) ? hidden(event) : event)),
        ...(waiting.length + refused.length > 0 ? [second("print", () => print())] : []),
        element("p", { "data-disk": disk.disk, text: word(`kept.disk.${disk.disk}`) }),
        disk.room === null ? "" : element("p", { text: word("kept.disk.room", { room: disk.room }) }),
        isSecureContext ? "" : element("p", { class: "plate inverse", text: word("kept.insecure") }),
    );
    if (focused) {
        place.querySelector(`[data-act="${focused}"]`)?.focus({ preventScroll: true });
    }
}

function stateOf({ state }) {
    return state === "signed_out" && signInAddress() !== null ? "sign_in" : state;
}

function howMany(kept, refused) {
    return word(kept === 0 && refused > 0 ? "kept.only_refused" : kept === 0 ? "kept.none" : kept === 1 ? "kept.one" : "kept.some", { number: kept });
}

function list(heading, about, items, drawn) {
    if (items.length === 0) {
        return [];
    }
    return [
        element("h2", { text: word(heading) }),
        about === null ? "" : element("p", { text: word(about) }),
        element("ul", { class: heading.replace(".", "-") }, ...items.map(drawn)),
    ];
}

/** While a count is hidden, no value of its run is shown here. */
function isOfCount(event, waiting) {
    return event.run !== null && waiting.some((one) => one.run === event.run && one.entered.sealed);
}

function hidden(event) {
    return { ...event, entered: { sealed: true } };
}

function refusedItem({ event, why, at }) {
    return item(
        event,
        element("p", { class: "plate inverse", text: word("kept.why", { time: clock(at), why }) }),
        element("button", { class: "turn", type: "button", text: word("kept.try_again"), click: () => void tryAgain(event.key) }),
    );
}

function allAgain(refused) {
    const each = async () => {
        for (const { event } of refused) await tryAgain(event.key);
    };
    return element("button", { class: "turn", type: "button", "data-act": "all", text: word("kept.try_all"), click: () => void each() });
}

/** A photo that waits, or was refused: it goes on by itself, or by hand. */
function photoItem({ key, event, why, at }) {
    const mb = (event.entered.bytes / 1e6).toFixed(1);
    const who = names[event.person] ?? word("kept.nobody");
    return element(
        "li",
        { class: "kept-item", "data-key": key },
        element("p", {}, element("b", { text: word("kept.photo", { who, time: clock(event.at), mb }) })),
        why === null ? "" : element("p", { class: "plate inverse", text: word("kept.why", { time: clock(at), why }) }),
        why === null ? "" : element("button", { class: "turn", type: "button", text: word("kept.try_again"), click: () => void tryPhotoAgain(key) }),
    );
}

function item(event, ...more) {
    const what = word(`kept.kind.${event.kind}`);
    const who = names[event.person] ?? word("kept.nobody");
    return element(
        "li",
        { class: "kept-item", "data-key": event.key },
        element("p", {}, element("b", { text: word("kept.item", { what, who, time: clock(event.at) }) })),
        ...entered(event).map((text) => element("p", { text })),
        ...more,
    );
}

/** What was entered, one line a value; digits and names of records are nobody's business here. */
function entered({ entered: found }) {
    if (found.sealed) {
        return [word("kept.hidden")];
    }
    const values = { ...found, ...found.values };
    const odd = new Set(["values", "salt", "check", "id", "script", "book", "lot", "sealed"]);
    return Object.entries(values)
        .filter(([name, value]) => !odd.has(name) && value !== null && value !== "")
        .map(([name, value]) => `${label(name)}: ${plain(value)}`);
}

function label(name) {
    const key = `kept.value.${name}`;
    return hasWord(key) ? word(key) : name.replaceAll("_", " ");
}

function plain(value) {
    if (Array.isArray(value)) {
        return value.map(plain).join(", ");
    }
    if (value !== null && typeof value === "object") {
        return Object.entries(value).map(([name, one]) => `${label(name)} ${plain(one)}`).join(", ");
    }
    return names[value] ?? String(value);
}

function second(name, act) {
    return element("button", { class: "action second", type: "button", "data-act": name, text: word(`kept.${name}`), click: act });
}
