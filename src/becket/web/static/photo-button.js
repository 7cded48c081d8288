/*
 * The small button that takes a photo.
 *
 * In:    a tap; the file that the camera or the person gives.
 * Out:   the photo kept; a line that says so, or why not.
 * Never: a photo asked for; a screen that waits for one.
 */

import { element } from "./element.js";
import { keepPhoto } from "./photos.js";
import { crew, holder } from "./people.js";
import { word } from "./words.js";

/**
 * Return the button with the line below it.
 * @param {() => object} about what `keepPhoto` is told, at the moment of the photo; without `person` whoever holds the
 *     phone
 * @param {() => void} [kept] is told when one is kept
 * @returns {HTMLElement}
 */
export function photoButton(about, kept = () => undefined) {
    const said = element("p", { class: "small", role: "status" });
    const input = element("input", { type: "file", accept: "image/jpeg", hidden: true, tabindex: "-1", "aria-hidden": "true" });
    const button = element("button", { type: "button", class: "turn", "data-photo": "button", text: word("photo.button") });
    button.addEventListener("click", (event) => {
        if (event.detail < 2) input.click();
    });
    input.addEventListener("change", async () => {
        const [file] = input.files;
        if (!file) return;
        button.disabled = true;
        said.textContent = word("photo.keeping");
        said.textContent = await keepAndSay(file, about());
        button.disabled = false;
        input.value = "";
        kept();
    });
    return element("div", { class: "photo-row" }, button, input, said);
}

async function keepAndSay(file, about) {
    try {
        const person = about.person ?? (await holder());
        const role = about.role ?? (await crew()).find((one) => one.id === person)?.role;
        if (!person || !role) return word("photo.nobody");
        await keepPhoto(file, { ...about, person, role });
        return word("photo.kept");
    } catch (error) {
        if (!error.word) console.error(error);
        return word(error.word ?? "strap.cannot_keep_broken", error.values);
    }
}

/**
 * Return the photos that wait on this phone as a list, each shown from this phone.
 * @param {object[]} items of `photoItems`
 * @returns {HTMLElement[]}
 */
export function photosWaiting(items) {
    return items.map(({ blob, event, why }) => {
        const image = element("img", { class: "photo", alt: word("photo.waiting_alt") });
        image.addEventListener("load", () => URL.revokeObjectURL(image.src), { once: true });
        image.src = URL.createObjectURL(blob);
        return element("li", {}, element("figure", {}, image, element("figcaption", {},
            event.entered.note && element("span", { class: "record-label", text: event.entered.note }),
            element("b", { text: why === null ? word("photo.waiting") : word("photo.refused", { why }) }))));
    });
}
