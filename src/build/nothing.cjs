// Stands in for what a bundled package imports and never uses here; build.mjs says for what, and why.
module.exports = {};
