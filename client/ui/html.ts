// The one place that binds templates to the renderer. htm does not check the props of a tag, so pieces
// without hooks are called as functions and keep their types.

export { html } from 'htm/preact'
