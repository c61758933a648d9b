#!/usr/bin/env node
const { load } = require('../dist/load.cjs');

load('main.cjs')
  .main(process.argv.slice(2))
  .then(status => {
    process.exitCode = status;
  });
