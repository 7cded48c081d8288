/*
 * A change before it begins: the button that starts it.
 *
 * In:    the page.
 * Out:   a button that works.
 * Never: a step; those are on the page of the run.
 */

import { wireStart } from "./start-run.js";

wireStart();
