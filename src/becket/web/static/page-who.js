/*
 * Who holds the phone: name plates, four digits, a new name, forgotten digits.
 *
 * In:    the crew list of this phone; the part of the address after # says where to go on.
 * Out:   the holder of this phone; events of the firm.
 * Never: a name chosen for somebody; digits kept or shown.
 */

import { element } from "./element.js";
import { may } from "./may.js";
import { deliver } from "./outbox.js";
import { digitsPad } from "./pad.js";
import { addPerson, changeDigits, checkDigits, crew, holder, initials, setHolder, waitFor, wrongTries } from "./people.js";
import { sayTrouble } from "./strap.js";
import { word } from "./words.js";

const ROLES = ["operator", "rigger", "supervisor", "inspector"];
const MOST_TRIES = 5;
const place = document.querySelector("#who");

await showList().then(fetchList).catch(sayTrouble);

/** A new phone: who is on the list comes with the first signal. What somebody has begun to fill in stays. */
async function fetchList() {
    if ((await crew()).length === 0) {
        await deliver();
        if (place.querySelector("form, .keys") === null) await showList();
    }
}

async function showList() {
    const [people, now] = await Promise.all([crew(), holder()]);
    const told = people.length === 0 && may("people") ? line(word("who.empty")) : null;
    show(
        title(word("who.title")),
        told,
        ...people.map((one) => plate(one, one.id === now ? word("who.holds") : null, () => showDigits(one))),
        may("people") ? (people.length === 0 ? action : second)(word("who.not_listed"), showNew) : element("p", { text: word("accounts.people_by_supervisor") }),
        now === null ? null : link(word("who.nobody"), () => setHolder(null).then(showList)),
    );
}

/** The digits of whoever takes the phone. */
function showDigits(person) {
    askDigits(person, word("who.digits"), () => take(person.id), [
        second(word("who.another"), showList),
        link(word("who.forgotten"), () => showVouchers(person, [])),
    ]);
}

async function take(id) {
    await setHolder(id);
    const onward = decodeURIComponent(location.hash.slice(1));
    const crane = document.body.dataset.crane;
    const isOurs = /^\/[A-Za-z0-9]/.test(onward);
    location.assign(isOurs ? onward : crane ? `/c/${encodeURIComponent(crane)}/now` : "/");
}

/** A name that is not on the list yet: who, then four digits, twice. */
function showNew() {
    const fields = {
        name: field("name", { autocomplete: "off", maxlength: "60" }),
        licence: field("licence", { autocomplete: "off", maxlength: "60" }),
        number: field("number", { autocomplete: "off", maxlength: "40" }),
    };
    const roles = ROLES.map((role) =>
        element(
            "label",
            {},
            element("input", { type: "radio", name: "role", value: role }),
            element("span", { text: word(`who.role.${role}`) }),
        ),
    );
    const choice = element("fieldset", { class: "field" }, element("legend", { class: "label", text: word("who.field.role") }),
        element("div", { class: "choice" }, ...roles));
    const said = message();
    const form = element("form", { class: "stack", novalidate: true }, said, fields.name, choice, fields.licence,
        fields.number, element("button", { class: "action", text: word("who.to_digits") }));
    form.addEventListener("submit", (event) => {
        event.preventDefault();
        void takeNew(new FormData(form), said);
    });
    show(title(word("who.new")), form, second(word("who.back"), showList));
}

async function takeNew(data, said) {
    const name = String(data.get("name")).trim();
    const role = data.get("role");
    const there = (await crew()).some((one) => one.name.toLowerCase() === name.toLowerCase());
    const fault = name === "" ? "no_name" : there ? "name_there" : role === null ? "no_role" : null;
    if (fault !== null) {
        tell(said, word(`who.fault.${fault}`));
        return;
    }
    const licence = [data.get("licence"), data.get("number")].map((text) => String(text).trim()).filter(Boolean);
    chooseDigits(name, async (digits) => {
        await take(await addPerson({ name, role: String(role), licence: licence.join(", "), digits }));
    });
}

/** Forgotten digits: two others, one after the other, then new digits. */
async function showVouchers(person, vouchers) {
    if (vouchers.length === 2) {
        chooseDigits(person.name, async (digits) => {
            await changeDigits(person.id, digits, vouchers);
            await take(person.id);
        });
        return;
    }
    const others = (await crew()).filter((one) => one.id !== person.id && !vouchers.includes(one.id));
    const isEnough = others.length + vouchers.length >= 2;
    const asked = word(vouchers.length === 0 ? "who.vouch_first" : "who.vouch_second", { name: person.name });
    const vouch = (one) => () =>
        askDigits(one, word("who.vouch_digits", { name: person.name }), () => showVouchers(person, [...vouchers, one.id]), [
            second(word("who.another"), () => showVouchers(person, vouchers)),
        ]);
    show(
        title(word("who.forgotten_title")),
        line(isEnough ? asked : word("who.vouch_too_few")),
        ...(isEnough ? others.map((one) => plate(one, null, vouch(one))) : []),
        second(word("who.back"), showList),
    );
}

/** Ask a person's digits until they are right. */
function askDigits(person, asked, right, more) {
    const said = padWords(asked);
    const pad = digitsPad(async (digits) => {
        try {
            if (await checkDigits(person.id, digits)) {
                await right();
                return;
            }
            tell(said, await wrongWords(person.id));
        } catch (error) {
            tell(said, wordsOf(error));
        }
        pad.clear();
    });
    show(title(person.name), said, pad.node, ...more);
}

async function wrongWords(id) {
    const wait = await waitFor(id);
    if (wait > 0) {
        return word("who.wait", { seconds: wait });
    }
    return word("who.wrong", { left: MOST_TRIES - (await wrongTries(id)) });
}

/** Ask new digits twice: they are never shown. */
function chooseDigits(name, done) {
    const said = padWords(word("who.choose"));
    let first = null;
    const pad = digitsPad(async (digits) => {
        const isSame = digits === first;
        if (first === null) {
            first = digits;
            tell(said, word("who.again"));
        } else if (isSame) {
            await done(digits).catch((error) => tell(said, wordsOf(error)));
        } else {
            first = null;
            tell(said, word("who.unlike"));
        }
        pad.clear();
    });
    show(title(name), said, pad.node, second(word("who.back"), showList));
}

function wordsOf(error) {
    if (!error.word) {
        console.error(error);
    }
    return word(error.word ?? "strap.cannot_keep_broken");
}

function plate({ name, role }, more, act) {
    const about = [word(`who.role.${role}`), more].filter(Boolean).join(", ");
    return element(
        "button",
        { class: "plate person", type: "button", click: act },
        element("span", { class: "initials", "aria-hidden": "true", text: initials(name) }),
        element("span", {}, element("b", { text: name }), element("span", { class: "small", text: about })),
    );
}

function field(name, attributes) {
    const hint = word(`who.hint.${name}`);
    return element(
        "div",
        { class: "field" },
        element("label", { for: `who-${name}`, text: word(`who.field.${name}`) }),
        hint === `who.hint.${name}` ? null : element("span", { class: "hint", id: `who-${name}-hint`, text: hint }),
        element("input", { id: `who-${name}`, name, type: "text", ...attributes }),
    );
}

function show(...parts) {
    place.replaceChildren(...parts.filter((part) => part !== null));
    scrollTo(0, 0);
    place.querySelector("h1").focus({ preventScroll: true });
}

function tell(said, text) {
    said.textContent = text;
    said.hidden = text === "";
}

function message() {
    return element("p", { class: "plate inverse", role: "alert", hidden: true });
}

/** What is asked or said over a pad: its place stays as high, so that no key moves under a finger. */
function padWords(text) {
    return element("p", { class: "say said-place", role: "status", text });
}

function title(text) {
    return element("h1", { tabindex: "-1", text });
}

function line(text) {
    return element("p", { class: "say", text });
}

function action(text, act) {
    return element("button", { class: "action", type: "button", text, click: act });
}

function second(text, act) {
    return element("button", { class: "action second", type: "button", text, click: act });
}

function link(text, act) {
    return element("button", { class: "turn", type: "button", text, click: act });
}
