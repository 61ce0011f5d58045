// The icons of the installed app, drawn anew into public/ when their drawing here changes:
//   node .scripts/icons.mjs
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { findOrInstallChromium } from './chromium.mjs';
import { projectRoot } from './command.mjs';

/** The colours of src/views/parts/tokens.css, in the light theme. */
const colours = {
  paper: '#faf8f3',
  page: '#fffdf8',
  rule: '#d8d2c4',
  accent: '#3b4ba0',
  pass: '#1f6f54',
  ground: '#e6e7f2',
};

/** An open logbook: lines of writing on the left page; on the right one a series of runs about its mean. */
const logbook = `
  <path d="M50 30C40 24 26 23 14 26v46c12-3 26-2 36 4 10-6 24-7 36-4V26C74 23 60 24 50 30Z"
    fill="${colours.page}" stroke="${colours.accent}" stroke-width="4" stroke-linejoin="round"/>
  <path d="M50 30v46" stroke="${colours.accent}" stroke-width="3"/>
  <path d="M21 38c7-1.300 14-1 21 1M21 47c7-1.300 14-1 21 1M21 56c7-1.300 14-1 21 1" fill="none"
    stroke="${colours.accent}" stroke-width="2.500" stroke-linecap="round" opacity="0.550"/>
  <path d="M57 50c7-2 15-2.400 23-1.500" fill="none" stroke="${colours.rule}" stroke-width="2.500"/>
  <path d="M59 53 65.500 44 72 52 79 42" fill="none" stroke="${colours.pass}" stroke-width="2"/>
  <g fill="${colours.pass}">
    <circle cx="59" cy="53" r="3.200"/><circle cx="65.500" cy="44" r="3.200"/>
    <circle cx="72" cy="52" r="3.200"/><circle cx="79" cy="42" r="3.200"/>
  </g>`;

/**
 * @param {number} sizePx
 * @param {boolean} isMaskable a system cuts it to its own shape: the ground goes to the edge, and the drawing stays within
 *   the safe circle, four fifths of the width (W3C, Web Application Manifest, "icon masks and safe zone")
 */
const drawing = (sizePx, isMaskable) => `
  <svg xmlns="http://www.w3.org/2000/svg" width="${sizePx}" height="${sizePx}" viewBox="0 0 100 100">
    <rect width="100" height="100" rx="${isMaskable ? 0 : 20}" fill="${colours.ground}"/>
    <g transform="${isMaskable ? 'translate(11 10.500) scale(0.780)' : 'translate(0 -1)'}">${logbook}</g>
  </svg>`;

const icons = [
  { name: 'icon-192.png', sizePx: 192, isMaskable: false },
  { name: 'icon-512.png', sizePx: 512, isMaskable: false },
  { name: 'icon-maskable-512.png', sizePx: 512, isMaskable: true },
];

const browser = await chromium.launch({
  executablePath: await findOrInstallChromium(),
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage();
  for (const { name, sizePx, isMaskable } of icons) {
    await page.setViewportSize({ width: sizePx, height: sizePx });
    await page.setContent(
      `<style>body { margin: 0 } svg { display: block }</style>${drawing(sizePx, isMaskable)}`,
    );
    await writeFile(path.join(projectRoot, 'public', name), await page.screenshot({ omitBackground: true }));
  }
} finally {
  await browser.close();
}
