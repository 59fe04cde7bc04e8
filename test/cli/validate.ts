import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';

const SCHEMAS = path.join(import.meta.dirname, '../../server/src/cli/schemas');

const files: Readonly<Record<string, string>> = {
  'check-1': path.join(SCHEMAS, 'check-1.json'),
  'report-1': path.join(SCHEMAS, 'report-1.json'),
  'compare-1': path.join(SCHEMAS, 'compare-1.json'),
  'repair-1': path.join(SCHEMAS, 'repair-1.json'),
  'identify-1': path.join(SCHEMAS, 'identify-1.json'),
  'list-1': path.join(SCHEMAS, 'list-1.json'),
  sarif: path.join(import.meta.dirname, 'sarif-2.1.0-part.json'),
};

const compiled = new Map<string, ValidateFunction>();

/** The data, which must keep to the schema of that name. */
// biome-ignore lint/suspicious/noExplicitAny: the schema has just been checked, and tests read what it promises.
export function validate(name: keyof typeof files, data: unknown): any {
  const file = files[name];
  assert.ok(file);
  const check =
    compiled.get(file) ??
    new Ajv({
      strict: true,
      allowUnionTypes: true,
      allErrors: true,
      formats: { uri: isUri, 'uri-reference': isUriReference },
    }).compile(JSON.parse(readFileSync(file, 'utf8')));
  compiled.set(file, check);
  check(data);
  const errors = (check.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
  assert.deepEqual(errors.slice(0, 5), []);
  return data;
}

const isUri = (text: string): boolean => URL.canParse(text);

/** RFC 3986, 4.1: a URI or a relative reference, of its characters only. */
const isUriReference = (text: string): boolean =>
  /^(?:[\w\-.~!$&'()*+,;=:@/?#[\]]|%[\dA-Fa-f]{2})*$/.test(text) && URL.canParse(text, 'file:///');
