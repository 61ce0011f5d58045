/** Must run before any schema is made: whoever makes schemas of entries imports it first. */
import * as z from 'zod/mini';
import en from 'zod/v4/locales/en.js';

// zod's small build says only "Invalid input" without its words, and a damaged entry must be told what is wrong with it.
// Jitless: zod would otherwise try whether the page may turn text into code, which it may not.
z.config({ ...en(), jitless: true });
