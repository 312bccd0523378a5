// What the three crop drawings mean, with the source of each fact. Only for groups in which a crop shows:
// finches and sparrows, doves and pigeons (HRB2 p. 8). A page that shows the fact shows its source too.

export const cropGroups = ['songbird', 'dove'] as const
export type CropGroup = (typeof cropGroups)[number]

/** In the order in which they are drawn. */
export const cropFills = ['empty', 'filled', 'tooFull'] as const
export type CropFill = (typeof cropFills)[number]

export type CropWords = {
  /** One or two words, to stand under the drawing. */
  readonly word: string
  /** For those who cannot see the drawing. */
  readonly title: string
  readonly sentence: string
  readonly source: string
}

const practice = 'common practice, no source'
/** Where a dove's crop lies; that it is fed by the crop and not by its begging was read. */
const doves = `${practice}; where it lies in doves: from memory`

export const cropWords: Readonly<Record<CropGroup, Readonly<Record<CropFill, CropWords>>>> = {
  songbird: {
    empty: {
      word: 'Empty',
      title: 'A young finch with an empty crop: the neck is slim and its skin lies in folds.',
      sentence: 'The skin at the side of the neck is slack.',
      source: practice,
    },
    filled: {
      word: 'Good',
      title: 'A young finch with a well filled crop: a soft bulge at the side of the neck.',
      sentence: 'A soft bulge at the side of the neck: stop here, even if it begs.',
      source: practice,
    },
    tooFull: {
      word: 'Too full',
      title: 'A young finch fed too much: the neck is blown up, the skin tight and shiny.',
      sentence: 'Tight or shiny skin: no more, and not again until it has emptied.',
      source: `${practice}; not before it is empty: HRB2 p. 445, 449`,
    },
  },
  dove: {
    empty: {
      word: 'Empty',
      title: 'A young dove with an empty crop: the front of the neck hollows in, in folds.',
      sentence: 'The skin at the front of the neck is slack: only now is it fed again.',
      source: `${doves}; not before it is empty: HRB2 p. 445, 449`,
    },
    filled: {
      word: 'Good',
      title: 'A young dove with a well filled crop: soft and round below the neck.',
      sentence: 'Soft and round: stop here. It begs when it is full, too.',
      source: `${doves}; begging when full: HRB2 p. 449`,
    },
    tooFull: {
      word: 'Too full',
      title: 'A young dove fed too much: the breast is blown up, the skin tight and shiny.',
      sentence: 'Tight or shiny skin: no more, and nothing that squeezes it.',
      source: `${doves}; squeezing a full crop: HRB2 p. 449`,
    },
  },
}
