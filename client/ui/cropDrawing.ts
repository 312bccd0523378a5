// Drawings of a nestling's neck and breast with its crop empty, well filled and too full, for the groups
// in which it shows. Outlines and shades only; what they mean in words stands in cropWords.ts. Drawn to
// be told apart at arm's length, on a dark ground, 120 to 200 pixels wide, by outline before colour.

import type { ComponentChild } from 'preact'
import { back, head, necks, skinShade, skins } from './cropBird.ts'
import { type CropFill, type CropGroup, cropWords } from './cropWords.ts'
import { html } from './html.ts'

/** Where food shows through the skin, and its rim. */
const foodColours = {
  filled: { core: '#f8e2b8', mid: '#f0c496', rim: '#bd735c' },
  tooFull: { core: '#fff1cf', mid: '#f5c795', rim: '#c0503f' },
} as const

/** How the line of the neck goes on from the throat down; the crop pushes it out. */
const fronts: Readonly<Record<CropGroup, Readonly<Record<CropFill, string>>>> = {
  songbird: {
    empty: 'C122 104 116 116 124 131C137 149 146 170 146 204',
    filled: 'C146 90 161 105 160 124C159 142 149 149 148 162C149 176 148 190 146 204',
    tooFull: 'C160 72 188 92 188 125C188 152 166 164 153 170C150 184 148 194 146 204',
  },
  dove: {
    empty: 'C116 96 106 112 113 132C124 156 140 172 142 204',
    filled: 'C136 90 156 108 160 134C163 158 156 174 148 187C146 192 144 198 142 204',
    tooFull: 'C146 72 186 90 192 131C196 164 174 188 152 194C149 198 146 202 142 204',
  },
}

/** The food under the skin; its outer side is cut off by the outline it pushes out. */
const foods = {
  songbird: {
    filled: { cx: 130, cy: 123, rx: 34, ry: 33 },
    tooFull: { cx: 143, cy: 124, rx: 48, ry: 46 },
  },
  dove: {
    filled: { cx: 126, cy: 138, rx: 38, ry: 48 },
    tooFull: { cx: 142, cy: 138, rx: 53, ry: 57 },
  },
} as const

/** The slack skin of an empty crop: folds, and nothing under them. */
function folds(group: CropGroup): ComponentChild {
  const { dark } = skins[group]
  const d =
    group === 'songbird'
      ? 'M100 104C106 114 108 124 116 132M92 112C98 122 102 132 112 142M110 98C113 106 114 112 119 118'
      : 'M92 100C96 114 98 126 106 138M82 110C88 124 92 138 102 150M102 94C103 104 104 112 109 122'
  return html`<path d=${d} fill="none" stroke=${dark} stroke-width="3.5" stroke-linecap="round" />`
}

/** Soft at its edge while all is well; with a hard, sore rim when the skin is tight. */
function foodShades(id: string, group: CropGroup, fill: 'filled' | 'tooFull'): ComponentChild {
  const { core, mid, rim } = foodColours[fill]
  const stop = (offset: number, colour: string, opacity = 1) =>
    html`<stop offset=${offset} stop-color=${colour} stop-opacity=${opacity} />`
  const stops =
    fill === 'tooFull'
      ? [stop(0, core), stop(0.55, mid), stop(0.9, rim), stop(1, rim, 0.9)]
      : [stop(0, core), stop(0.5, mid), stop(0.8, rim, 0.75), stop(1, skins[group].mid, 0)]
  return html`
    <radialGradient id=${`${id}-food`} cx="0.6" cy="0.42" r="0.6">${stops}</radialGradient>
    <linearGradient id=${`${id}-fade`}>
      <stop offset="0" stop-color="#000000" />
      <stop offset="0.32" stop-color="#ffffff" />
    </linearGradient>
    <mask id=${`${id}-soft`} maskContentUnits="objectBoundingBox">
      <rect width="1" height="1" fill=${`url(#${id}-fade)`} />
    </mask>
  `
}

/** Melts into the neck on its inner side, and ends where the bird ends on the other. */
function food(id: string, group: CropGroup, fill: 'filled' | 'tooFull'): ComponentChild {
  const { cx, cy, rx, ry } = foods[group][fill]
  return html`
    ${foodShades(id, group, fill)}
    <clipPath id=${`${id}-outline`}><path d=${`${necks[group]}${fronts[group][fill]}Z`} /></clipPath>
    <g clip-path=${`url(#${id}-outline)`}>
      <ellipse
        cx=${cx}
        cy=${cy}
        rx=${rx}
        ry=${ry}
        fill=${`url(#${id}-food)`}
        mask=${`url(#${id}-soft)`}
      />
    </g>
    ${fill === 'tooFull' ? strain(group) : null}
  `
}

/** Veins of stretched skin, and the light it throws back as wet glass does. */
function strain(group: CropGroup): ComponentChild {
  const { cx, cy, rx, ry } = foods[group].tooFull
  const at = (x: number, y: number) => `${cx + x * rx} ${cy + y * ry}`
  const veins = [
    `M${at(-0.9, -0.1)}Q${at(-0.5, 0.14)} ${at(-0.2, 0.6)}`,
    `M${at(-0.58, 0.08)}Q${at(-0.3, 0.04)} ${at(-0.08, 0.2)}`,
    `M${at(-0.5, 0.66)}Q${at(0.1, 0.86)} ${at(0.46, 0.5)}`,
  ]
  return html`
    <path
      d=${veins.join('')}
      fill="none"
      stroke=${foodColours.tooFull.rim}
      stroke-width="2.4"
      stroke-linecap="round"
    />
    <path
      d=${`M${at(-0.2, -0.6)}Q${at(0.4, -0.78)} ${at(0.72, -0.16)}Q${at(0.3, -0.44)} ${at(-0.2, -0.6)}Z`}
      fill="#ffffff"
    />
    <circle cx=${cx + 0.72 * rx} cy=${cy + 0.14 * ry} r="4.5" fill="#ffffff" />
  `
}

/** The drawing of one filling, named for a screen reader by what it shows. */
export function cropDrawing(group: CropGroup, fill: CropFill): ComponentChild {
  const id = `crop-${group}-${fill}`
  return html`<svg class="crop" viewBox="0 -6 206 206" role="img" aria-labelledby=${`${id}-title`}>
    <title id=${`${id}-title`}>${cropWords[group][fill].title}</title>
    ${skinShade(id, group)}
    <path d=${`${necks[group]}${fronts[group][fill]}Z`} fill=${`url(#${id}-skin)`} />
    ${back(group)} ${fill === 'empty' ? folds(group) : food(id, group, fill)}
    ${head(id, group)}
  </svg>`
}
