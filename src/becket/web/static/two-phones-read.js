/*
 * A code of the other phone, read: by the camera where the browser reads codes, else pasted as text.
 *
 * In:    the camera of this phone, only while its screen stands; a text.
 * Out:   the text of a code.
 * Never: a picture kept or sent; a camera left on.
 */

import { element } from "./element.js";
import { action, line } from "./screen.js";
import { word } from "./words.js";

const PAUSE = 200; // ms between two looks at the picture of the camera

/**
 * Return what reads a code: the picture of the camera, a line to paste into, and what is wrong.
 * @param {(text: string) => Promise<?string>} taken returns what is wrong, in words; null: it is taken
 * @returns {HTMLElement}
 */
export function codeReader(taken) {
    const said = element("p", { class: "say", role: "alert" });
    const about = line(word("two.read.no_camera"));
    const typed = element("input", {
        type: "text", class: "line", autocomplete: "off", autocapitalize: "off", spellcheck: "false",
        "aria-label": word("two.read.text"), "data-two": "text",
    });
    const take = async (text) => {
        const wrong = await taken(text);
        said.textContent = wrong ?? "";
        return wrong === null;
    };
    const video = element("video", { class: "camera", playsinline: "", hidden: true, "aria-label": word("two.read.camera") });
    video.muted = true;
    const node = element("div", { class: "reader" }, video, about, said, typed,
        action(word("two.read.take"), () => void take(typed.value), "action second"));
    if ("BarcodeDetector" in globalThis) void watch({ node, video, about, take });
    return node;
}

/** Look at the camera as long as the screen stands. */
async function watch({ node, video, about, take }) {
    let stream = null;
    try {
        const detector = new BarcodeDetector({ formats: ["qr_code"] });
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
        video.srcObject = stream;
        await video.play();
        video.hidden = false;
        about.textContent = word("two.read.camera");
        await lookUntilTaken({ node, video, detector, take });
    } catch (error) {
        about.textContent = word(error?.name === "NotAllowedError" ? "two.read.denied" : "two.read.no_camera");
        video.hidden = true;
    } finally {
        stream?.getTracks().forEach((track) => track.stop());
    }
}

async function lookUntilTaken({ node, video, detector, take }) {
    let last = "";
    while (node.isConnected) {
        const [found] = await detector.detect(video).catch(() => []);
        const text = found?.rawValue ?? "";
        if (text !== "" && text !== last && (await take(text))) return;
        last = text || last;
        await new Promise((done) => setTimeout(done, PAUSE));
    }
}
