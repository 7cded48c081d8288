/*
 * The service worker: what the phone shows when the server cannot be reached.
 *
 * In:    requests of the pages; the message {kind: "keep", crane}.
 * Out:   files of the shell; pages as the server gives them now, else as they were kept, marked with their time.
 * Never: keeping an entry, a feed or a refusal; a kept page shown as if it were of now; an old shell thrown away
 *        before the new one is whole, or while a change or a count is open.
 */

const BECKET = /* BECKET FILLS IN */ null;
const SHELL = `becket-shell-${BECKET.version}`;
const PAGES = `becket-pages-${BECKET.version}`;
const CRANES = "becket-cranes"; // which cranes this phone keeps; outlives a version
const RUN = "/run/kept"; // one page for every run: it holds nothing of any run
const NOT_KEPT = "/not-kept";
const PATIENCE = 2500; // ms that a page is waited for while a kept one is there
const AT_ONCE = 4;
const SEAL = "x-becket-seal";
const KEPT_AT = "x-becket-kept-at";
const NEVER = ["/api/", "/open/", "/link", "/files", "/sw.js", "/sign-", "/account", "/invited/"];
const NO_SERVER = [401, 502, 503, 504]; // signed out, or something between us and a server that is not there

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("message", (event) => {
    if (event.data?.kind === "keep" && typeof event.data.crane === "string") {
        event.waitUntil(rememberAndKeep(event.data.crane).catch((error) => console.warn("not kept", String(error))));
    }
    if (event.data?.kind === "take over") {
        event.waitUntil(skipWaiting());
    }
});
addEventListener("fetch", (event) => {
    const { method, mode, url } = event.request;
    const { origin, pathname } = new URL(url);
    if (method !== "GET" || origin !== location.origin || NEVER.some((one) => pathname.startsWith(one))) {
        return;
    }
    if (pathname.startsWith("/static/")) {
        event.respondWith(fromShell(event.request));
    } else if (pathname.startsWith("/script/")) {
        event.respondWith(script(event.request));
    } else if (mode === "navigate") {
        event.respondWith(pathname.startsWith("/run/") ? runPage(event.request) : page(event));
    }
});

/* ---- install, activate ---- */

/** Fetch the whole shell and the pages of every crane that this phone keeps; one failure and the old version stays. */
async function install() {
    const shell = await caches.open(SHELL);
    await eachOf(BECKET.shell, async (url) => {
        if (!(await shell.match(url))) {
            const old = await caches.match(url); // the seal in its name says that it is the same
            await shell.put(url, old ?? (await fetched(url)));
        }
    });
    await eachOf([RUN, NOT_KEPT], async (url) => shell.put(url, await fetched(url, { cache: "no-store" })));
    for (const crane of await cranesKept()) {
        await keepCrane(crane);
    }
    if (registration.active === null) {
        await skipWaiting(); // the first on this phone: nothing to wait for
    }
}

async function activate() {
    const mine = [SHELL, PAGES, CRANES];
    const old = (await caches.keys()).filter((name) => name.startsWith("becket-") && !mine.includes(name));
    await Promise.all(old.map((name) => caches.delete(name)));
    await clients.claim();
}

/** Let a newer worker take over, unless a change or a count is open in any tab. */
async function giveWay() {
    const open = await clients.matchAll({ type: "window", includeUncontrolled: true });
    if (registration.waiting && !open.some((one) => new URL(one.url).pathname.startsWith("/run/"))) {
        registration.waiting.postMessage({ kind: "take over" });
    }
}

/* ---- answers ---- */

async function fromShell(request) {
    return (await caches.match(request.url, { ignoreVary: true })) ?? fetch(request);
}

async function script(request) {
    const kept = await caches.match(request.url);
    if (kept) {
        return kept;
    }
    const reply = await fetch(request);
    if (reply.ok) {
        const pages = await caches.open(PAGES);
        await pages.put(request.url, reply.clone());
    }
    return reply;
}

async function runPage(request) {
    const shell = await caches.open(SHELL);
    return (await shell.match(RUN, { ignoreVary: true })) ?? fetch(request);
}

/** The server's page, or after some patience the kept one. */
async function page(event) {
    const { request } = event;
    const network = fetch(request).then((reply) => {
        event.waitUntil(afterPage(request, reply.clone()));
        return reply;
    });
    event.waitUntil(network.catch(() => null));
    const kept = await keptPage(request.url);
    const first = await Promise.race([network.catch(() => null), kept ? after(PATIENCE) : new Promise(() => {})]);
    if (first && !(kept && NO_SERVER.includes(first.status))) {
        return first;
    }
    return kept ? marked(kept) : notKept();
}

/** Keep what the server has just given, and let a newer worker in. */
async function afterPage(request, reply) {
    if (isPage(reply)) {
        const pages = await caches.open(PAGES);
        await pages.put(request.url, await stamped(reply, null));
    }
    if (reply.ok || reply.type === "opaqueredirect") {
        await giveWay();
    }
}

async function keptPage(url) {
    const pages = await caches.open(PAGES);
    const kept = await pages.match(url, { ignoreVary: true });
    const { pathname } = new URL(url);
    const record = pathname.match(/^(\/c\/[^/]+\/record)\/[^/.]+$/);
    if (!kept && record) {
        return pages.match(record[1], { ignoreVary: true }); // the list says what this phone knows of a record
    }
    if (kept || pathname !== "/") {
        return kept;
    }
    const cranes = await cranesKept();
    return cranes.length === 1 ? Response.redirect(`/c/${encodeURIComponent(cranes[0])}/now`) : undefined;
}

/** A kept page says of itself when it was kept. */
async function marked(kept) {
    if (kept.type === "error" || kept.status !== 200) {
        return kept;
    }
    const at = kept.headers.get(KEPT_AT) ?? "";
    const text = await kept.text();
    return new Response(text.replace("<body ", `<body data-kept="${at}" `), { headers: kept.headers });
}

async function notKept() {
    const shell = await caches.open(SHELL);
    return (await shell.match(NOT_KEPT, { ignoreVary: true })) ?? Response.error();
}

/* ---- what is kept of a crane ---- */

async function rememberAndKeep(crane) {
    const cranes = await caches.open(CRANES);
    await cranes.put(`/kept-crane/${encodeURIComponent(crane)}`, new Response(crane));
    await keepCrane(crane);
}

async function cranesKept() {
    const cranes = await caches.open(CRANES);
    const found = await Promise.all((await cranes.keys()).map(async (key) => (await cranes.match(key)).text()));
    return found.sort();
}

/** Fetch what has changed since it was kept; throw away what the server no longer names. */
async function keepCrane(crane) {
    const about = await fetch(`/api/kept/${encodeURIComponent(crane)}`, { cache: "no-store" });
    if (about.status === 404) {
        const cranes = await caches.open(CRANES);
        await cranes.delete(`/kept-crane/${encodeURIComponent(crane)}`);
        return;
    }
    if (!about.ok) {
        throw new Error(`/api/kept: ${about.status}`);
    }
    const { pages, seals, scripts } = await about.json();
    const kept = await caches.open(PAGES);
    await eachOf(scripts, async ({ url }) => {
        if (!(await kept.match(url))) {
            await kept.put(url, await fetched(url));
        }
    });
    await eachOf(pages, (url) => keepPage(kept, url, seals[url]));
    const base = `/c/${encodeURIComponent(crane)}/`;
    for (const request of await kept.keys()) {
        const { pathname, search } = new URL(request.url);
        if (pathname.startsWith(base) && !pages.includes(pathname + search)) {
            await kept.delete(request);
        }
    }
}

/** Keep one page. One that the server cannot give now stays as it was, with the time that it is of. */
async function keepPage(kept, url, seal) {
    const old = await kept.match(url, { ignoreVary: true });
    if (old?.headers.get(SEAL) === seal) {
        return;
    }
    const reply = await fetch(url, { cache: "no-store" });
    if (reply.status === 401) {
        throw new Error(`${url}: ${reply.status}`);
    }
    if (isPage(reply)) {
        await kept.put(url, await stamped(reply, seal));
    } else if (reply.status === 404) {
        await kept.delete(url);
    }
}

/* ---- small things ---- */

function isPage(reply) {
    return reply.ok && !reply.redirected && (reply.headers.get("content-type") ?? "").startsWith("text/html");
}

async function fetched(url, how = {}) {
    const reply = await fetch(url, how);
    if (!reply.ok || reply.redirected) {
        throw new Error(`${url}: ${reply.status}`);
    }
    return reply;
}

/** The same answer with the time and the seal under which it is kept. */
async function stamped(reply, seal) {
    const headers = new Headers(reply.headers);
    headers.delete("content-encoding");
    headers.delete("content-length");
    headers.set(KEPT_AT, new Date().toISOString());
    if (seal) {
        headers.set(SEAL, seal);
    }
    return new Response(await reply.blob(), { status: reply.status, headers });
}

function after(milliseconds) {
    return new Promise((done) => setTimeout(() => done(null), milliseconds));
}

/** Do the same to each, a few at once; the first failure is thrown. */
async function eachOf(list, work) {
    const left = [...list];
    const worker = async () => {
        for (let one = left.shift(); one !== undefined; one = left.shift()) {
            await work(one);
        }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, worker));
}
