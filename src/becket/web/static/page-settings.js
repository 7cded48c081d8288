/*
 * Settings on this phone: each choice is seen at once and kept at once.
 *
 * In:    the form; localStorage "look".
 * Out:   the look of this page; localStorage and the cookie "look"; a new copy of the pages, where asked for.
 * Never: other units while a change is open; a choice that is lost without a word.
 */

import { word } from "./words.js";

const YEAR = 31536000; // s
const NAMES = ["theme", "text", "units", "view", "cost"];
const form = document.querySelector("[data-settings=form]");

const kept = readLook();
for (const name of NAMES) {
    const box = form.querySelector(`input[name=${name}][value="${CSS.escape(kept[name] ?? "")}"]`);
    if (box && !box.disabled) {
        box.checked = true;
    }
}
form.querySelector("[data-settings=keep]").hidden = true;
form.addEventListener("change", keep);
form.addEventListener("submit", (event) => {
    event.preventDefault();
    keep();
});
showLine();
wireCopy();

/**
 * Return what this phone keeps of the look.
 * @returns {Record<string, string>}
 */
function readLook() {
    try {
        return JSON.parse(localStorage.getItem("look") ?? "{}") ?? {};
    } catch {
        return {};
    }
}

function chosen() {
    const look = {};
    for (const name of NAMES) {
        look[name] = form.querySelector(`input[name=${name}]:checked`)?.value ?? "";
    }
    return look;
}

function keep() {
    const look = chosen();
    document.documentElement.dataset.theme = look.theme;
    document.documentElement.dataset.text = look.text;
    localStorage.setItem("look", JSON.stringify(look));
    const secure = location.protocol === "https:" ? ";Secure" : "";
    document.cookie = `look=${NAMES.map((name) => look[name]).join(".")};Path=/;Max-Age=${YEAR};SameSite=Strict${secure}`;
    showLine();
}

function showLine() {
    const line = document.querySelector("[data-settings=line]");
    line.textContent = line.dataset[chosen().units] ?? line.textContent;
}

/** The pages in other units, view or with money are made by the server: the copy on the phone is made anew on a tap. */
function wireCopy() {
    const part = document.querySelector("[data-settings=copy-part]");
    const { crane } = document.body.dataset;
    if (!navigator.serviceWorker || !crane) {
        return;
    }
    const said = part.querySelector("[data-settings=copy-said]");
    part.hidden = false;
    part.querySelector("[data-settings=copy]").addEventListener("click", async () => {
        said.textContent = word("settings.copy.asking");
        try {
            const answer = await fetch(`/api/kept/${encodeURIComponent(crane)}`, { cache: "no-store" });
            if (!answer.ok) {
                throw new Error(String(answer.status));
            }
            const worker = await navigator.serviceWorker.ready;
            worker.active.postMessage({ kind: "keep", crane });
            said.textContent = word("settings.copy.asked");
        } catch {
            said.textContent = word("settings.copy.failed");
        }
    });
}
