/*
 * What every page does when it opens.
 *
 * In:    <body data-page data-crane>.
 * Out:   service worker, strap, delivery, and the module of the page.
 * Never: a wait for the server before the page can be used.
 */

import { recallMay, rememberMay } from "./may.js";
import { deliver } from "./outbox.js";
import { counts, onChange } from "./outbox.js";
import { startPhotos } from "./photos.js";
import { sayTrouble, startStrap } from "./strap.js";
import { rememberCrane } from "./view.js";
import { loadWords } from "./words.js";

const WAITS = [5, 15, 30, 60, 120]; // s between tries while something is kept and the server is out of reach
let failures = 0;
let timer = 0;

await start();

async function start() {
    const { page, crane, module } = document.body.dataset;
    await loadWords();
    keepOffline(crane);
    if (crane) {
        await rememberCrane(crane).catch(sayTrouble);
    }
    await (page === "run" ? recallMay() : rememberMay()).catch(() => undefined); // the strap says that nothing is kept
    await startStrap();
    startDelivery();
    if (module) {
        await import(module);
    }
    document.body.dataset.ready = page ?? "";
}

function startDelivery() {
    addEventListener("online", () => void deliver());
    addEventListener("pageshow", () => void deliver());
    document.addEventListener("visibilitychange", () => {
        if (document.visibilityState === "visible") {
            void deliver();
        }
    });
    onChange(() => void planNext());
    startPhotos();
    void deliver();
}

/** Try again by itself, at ever longer waits, as long as something is kept. */
async function planNext() {
    const { kept, state } = await counts();
    failures = state === "sent" ? 0 : failures;
    if (kept === 0 || timer !== 0) {
        return;
    }
    const wait = WAITS[Math.min(failures, WAITS.length - 1)];
    timer = setTimeout(() => {
        timer = 0;
        failures += 1;
        void deliver();
    }, wait * 1000);
}

/** Register the service worker and tell it which crane this phone keeps. */
function keepOffline(crane) {
    const worker = navigator.serviceWorker;
    if (!worker) {
        return;
    }
    worker.register("/sw.js").catch((error) => console.warn("no service worker", error));
    if (crane) {
        void worker.ready.then((found) => found.active.postMessage({ kind: "keep", crane }));
    }
}
