/*
 * An element of a page, made without any text being read as markup.
 *
 * In:    a tag, attributes, children.
 * Out:   an element.
 * Never: innerHTML; a value that runs as code.
 */

const SVG = "http://www.w3.org/2000/svg";

/**
 * Return an element.
 * @param {string} tag
 * @param {Object<string, *>} [attributes] `text` is the text, `click` what a tap does; the rest are attributes
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {HTMLElement}
 */
export function element(tag, attributes = {}, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
        if (value === null || value === undefined || value === false) continue;
        if (name === "text") made.textContent = String(value);
        else if (name === "click") made.addEventListener("click", value);
        else made.setAttribute(name, value === true ? "" : String(value));
    }
    made.append(...children.filter((child) => child !== null && child !== undefined && child !== false));
    return made;
}

/**
 * Return a picture of ours as an element: parsed as a picture, never as a page.
 * @param {string} text an SVG
 * @returns {SVGElement|null} null: it is no picture
 */
export function picture(text) {
    const parsed = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
    if (parsed.namespaceURI !== SVG || parsed.localName !== "svg") return null;
    parsed.querySelectorAll("script, style, foreignObject").forEach((odd) => odd.remove());
    return document.importNode(parsed, true);
}

/**
 * Return an element of a small drawing.
 * @param {string} tag
 * @param {Object<string, *>} [attributes]
 * @param {...Node} children
 * @returns {SVGElement}
 */
export function drawn(tag, attributes = {}, ...children) {
    const made = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
    made.append(...children);
    return made;
}
