// Finds what the shared brain may not touch: the clock, chance and the world around it. Reads syntax,
// not text, so comments and strings may speak of them. The compiler already refuses what is not in
// the language (no DOM, no node types); what is left is in the language itself.
import ts from 'typescript'

/** Names of the world; any mention is a breach, as a way round would begin with one. */
const world = ['globalThis', 'performance', 'process', 'crypto', 'setTimeout', 'setInterval']

/** Sentences naming each impure expression in `source`, with its line. */
export function impurities(fileName: string, source: string): readonly string[] {
  const file = ts.createSourceFile(fileName, source, ts.ScriptTarget.ES2023, true)
  const found: string[] = []
  const visit = (node: ts.Node): void => {
    const impurity = impurityOf(node)
    if (impurity !== undefined) {
      const { line } = file.getLineAndCharacterOfPosition(node.getStart())
      found.push(`${fileName}:${line + 1} uses ${impurity}`)
    }
    node.forEachChild(visit)
  }
  visit(file)
  return found
}

/** Only names count, where they stand for a value: not types, not properties, not new names. */
function impurityOf(node: ts.Node): string | undefined {
  if (!ts.isIdentifier(node) || isPropertyName(node) || isTypeName(node)) return undefined
  if (world.includes(node.text)) return node.text
  if (node.text === 'Math') return isPureMath(node) ? undefined : 'chance through Math'
  if (node.text === 'Date') return isPureDate(node) ? undefined : 'the clock through Date'
  return undefined
}

/** A named member other than `random`; anything else may take `random` along unseen. */
function isPureMath(name: ts.Identifier): boolean {
  const member = memberOf(name)
  return member !== undefined && member !== 'random'
}

/** `new Date(instant)` and `Date.UTC(...)` compute; every other use of Date can read the clock. */
function isPureDate(name: ts.Identifier): boolean {
  const { parent } = name
  if (ts.isNewExpression(parent)) return (parent.arguments?.length ?? 0) > 0
  return memberOf(name) === 'UTC'
}

function memberOf(name: ts.Identifier): string | undefined {
  const { parent } = name
  if (!ts.isPropertyAccessExpression(parent) || parent.expression !== name) return undefined
  return parent.name.text
}

function isPropertyName(name: ts.Identifier): boolean {
  const { parent } = name
  if (ts.isPropertyAccessExpression(parent)) return parent.name === name
  return (ts.isPropertyAssignment(parent) || ts.isPropertySignature(parent)) && parent.name === name
}

function isTypeName(name: ts.Identifier): boolean {
  return ts.isTypeReferenceNode(name.parent) || ts.isQualifiedName(name.parent)
}
