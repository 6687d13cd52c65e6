// The readers' packages are installed in build/readers, where node is started, not beside these scripts.
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {pathToFileURL} from 'node:url';

const home = join(process.cwd(), 'node_modules');

// need loads a package that is a CommonJS one.
export const need = createRequire(join(process.cwd(), 'package.json'));

// load loads a module of a package by its file's path in it.
export const load = (...path) => import(pathToFileURL(join(home, ...path)));
