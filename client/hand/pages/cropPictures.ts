// A good crop and a full one side by side, beside the plan of birds whose crop can be seen.

import type { ComponentChild } from 'preact'
import type { CropLook } from '../../../shared/views/cropShown.ts'
import { cropDrawing } from '../../ui/cropDrawing.ts'
import { html } from '../../ui/html.ts'
import { cropCaption } from '../visitWords.ts'

export function cropPictures(look: CropLook | null): ComponentChild {
  if (look === null) return null
  const captions = cropCaption[look]
  return html`<div class="crops" data-testid="crops">
    ${cropDrawing(look, 'filled')} <span>${captions.filled}</span>
    ${cropDrawing(look, 'tooFull')} <span>${captions.tooFull}</span>
  </div>`
}
