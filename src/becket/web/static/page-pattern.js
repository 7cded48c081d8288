/*
 * The page of a pattern, as far as photos go: the button, and those that still wait on this phone.
 *
 * In:    the crane and the state of the page; the photos of this phone.
 * Out:   a button; photos.
 * Never: a photo told as a confirmation.
 */

import { may } from "./may.js";
import { onChange } from "./outbox.js";
import { photoButton, photosWaiting } from "./photo-button.js";
import { photoItems } from "./photos.js";

const { crane, state } = document.body.dataset;
if (may("photos")) {
    document.querySelector("[data-photos=take]").append(
        photoButton(() => ({ crane, pattern: state, shown: { screen: "pattern", state } })),
    );
}
const waiting = document.querySelector("[data-photos=waiting]");
onChange(() => void draw());
await draw();

async function draw() {
    const items = (await photoItems()).filter((one) => one.crane === crane && one.run === null && one.event.entered.pattern === state);
    waiting.replaceChildren(...photosWaiting(items));
    waiting.hidden = items.length === 0;
}
