// The young bird around the crop, the same in each of its drawings: skin, head, back. Only cropDrawing.ts
// draws with it. Down and sheathed feathers are kept dull, so that the eye goes to the bare neck.

import type { ComponentChild } from 'preact'
import type { CropGroup } from './cropWords.ts'
import { html } from './html.ts'

/** Where the skin is light, mid and in shadow. */
export const skins = {
  songbird: { light: '#f0bba2', mid: '#d98d75', dark: '#8f5243' },
  dove: { light: '#e9b8a8', mid: '#c98676', dark: '#7d4a44' },
} as const

/** From the tail up the back and the nape, under the head, to the throat. */
export const necks: Readonly<Record<CropGroup, string>> = {
  songbird: 'M18 204C18 160 44 140 66 116C76 104 80 94 78 74L130 84',
  dove: 'M10 204C12 164 40 142 62 116C72 102 74 88 70 66L124 82',
}

/** The light falls on the breast; the neck under the chin lies in shadow. */
export function skinShade(id: string, group: CropGroup): ComponentChild {
  const { light, mid, dark } = skins[group]
  return html`<linearGradient id=${`${id}-skin`} x1="0.2" y1="0" x2="0.75" y2="1">
    <stop offset="0" stop-color=${dark} />
    <stop offset="0.45" stop-color=${mid} />
    <stop offset="1" stop-color=${light} />
  </linearGradient>`
}

function songbirdHead(id: string): ComponentChild {
  return html`
    <path d="M136 46L178 60Q182 62 178 65L140 76Z" fill="#c9a06a" />
    <path d="M140 61L178 62" stroke="#6d4c2c" stroke-width="2" fill="none" />
    <path
      d="M104 20C128 18 146 34 147 56C148 76 132 92 108 92C86 92 70 78 70 56C70 34 84 22 104 20Z"
      fill=${`url(#${id}-skin)`}
    />
    <path d="M132 50Q150 46 158 58Q152 68 134 74Q146 62 132 50Z" fill="#f3cf57" />
    <path
      d="M70 56C68 32 86 20 106 20C122 19 136 26 142 38C126 34 112 38 100 48C92 56 88 66 86 82C76 76 70 68 70 56Z"
      fill="#6f5b49"
    />
    <path
      d="M90 24Q86 14 78 10M97 21Q95 11 89 6M105 19Q106 10 102 4M113 20Q117 12 116 6M83 29Q76 21 68 19M77 36Q68 31 61 31M72 46Q64 43 58 45"
      fill="none"
      stroke="#a89a88"
      stroke-width="1.6"
      stroke-linecap="round"
    />
    <circle cx="116" cy="52" r="9.5" fill="#1b1512" stroke="#b9826e" stroke-width="3" />
    <circle cx="119.5" cy="48.5" r="2.6" fill="#ffffff" />
  `
}

function doveHead(id: string): ComponentChild {
  return html`
    <path
      d="M128 44C146 40 158 46 176 60C184 66 184 74 176 74C158 76 144 78 128 76Z"
      fill="#4f4648"
    />
    <path d="M168 55C178 60 186 68 182 73C178 76 170 74 166 72Z" fill="#d9c7b4" />
    <path d="M130 62Q156 62 176 68" stroke="#241e1f" stroke-width="2" fill="none" />
    <path
      d="M100 22C124 20 140 34 141 54C142 74 126 88 104 88C80 88 64 74 64 54C64 36 78 24 100 22Z"
      fill=${`url(#${id}-skin)`}
    />
    <path d="M124 42Q140 36 150 46Q146 56 130 56Q120 52 124 42Z" fill="#8d7572" />
    <path
      d="M64 54C64 34 80 22 100 22C112 21 122 26 130 34C114 34 100 40 92 52C86 62 82 72 80 82C70 76 64 66 64 54Z"
      fill="#6a6468"
    />
    <path
      d="M76 34Q64 26 54 28M83 28Q75 16 64 14M91 24Q86 12 76 8M99 22Q98 10 90 4M69 43Q56 38 47 42M65 53Q52 52 45 58M66 63Q54 65 49 73M70 72Q60 76 57 85M107 23Q109 13 104 6"
      fill="none"
      stroke="#d8c06c"
      stroke-width="1.8"
      stroke-linecap="round"
    />
    <circle cx="108" cy="50" r="8.5" fill="#1b1512" stroke="#a06f68" stroke-width="3" />
    <circle cx="111" cy="47" r="2.4" fill="#ffffff" />
  `
}

/** Back and wing: feathers still in their sheaths. */
export function back(group: CropGroup): ComponentChild {
  const [feather, sheath] = group === 'songbird' ? ['#6f5b49', '#cdbfae'] : ['#6a6468', '#e8cf77']
  const edge =
    group === 'songbird' ? 'M18 204C18 160 44 140 66 116' : 'M10 204C12 164 40 142 62 116'
  return html`
    <path d=${`${edge}C74 132 84 152 80 176C78 188 76 196 76 204Z`} fill=${feather} />
    <path
      d="M34 168L44 204M46 152L58 196M58 138L70 180M26 186L30 204"
      fill="none"
      stroke=${sheath}
      stroke-width="3"
      stroke-linecap="round"
    />
  `
}

export const head = (id: string, group: CropGroup): ComponentChild =>
  group === 'songbird' ? songbirdHead(id) : doveHead(id)
