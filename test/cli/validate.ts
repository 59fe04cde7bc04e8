import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';
import type { comparedData } from '../../server/src/cli/comparison-data.ts';
import type { Range } from '../../server/src/cli/line-map.ts';
import type { ReportData } from '../../server/src/cli/report-data.ts';
import type { PickupRecord } from '../../server/src/features/pickup-record.ts';
import type { Edit } from '../support/text-edits.ts';

/** Of each output, what tests read of it; its schema says all. */
export interface Outputs {
  readonly 'check-1': {
    readonly files: readonly { readonly path: string; readonly findings: readonly FindingData[] }[];
  };
  readonly 'report-1': ReportData;
  readonly 'compare-1': ReturnType<typeof comparedData>;
  readonly 'repair-1': {
    readonly subjects: readonly { readonly plans: readonly { readonly steps: readonly Step[] }[] }[];
  };
  readonly 'propose-1': {
    readonly pickups: readonly {
      readonly builds: readonly {
        readonly reaches: readonly { readonly of: string; readonly verdict?: string }[];
        readonly edits: readonly EditData[];
      }[];
    }[];
  };
  readonly 'identify-1': object;
  readonly 'fit-1': object;
  readonly 'switch-1': object;
  readonly 'wire-1': object;
  readonly 'list-1': { readonly pickups: readonly PickupRecord[] };
  readonly sarif: { readonly runs: readonly SarifRun[] };
}

export interface EditData {
  readonly range: Range;
  readonly newText: string;
}

interface FindingData {
  readonly code: string;
  readonly range: Range;
  readonly related: readonly object[];
  readonly fixes: readonly object[];
}

interface Step {
  readonly edits: readonly EditData[];
}

interface SarifRun {
  readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
  readonly results: readonly {
    readonly ruleId: string;
    readonly ruleIndex: number;
    readonly locations: readonly {
      readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: object };
    }[];
  }[];
  readonly invocations: readonly {
    readonly executionSuccessful: boolean;
    readonly toolExecutionNotifications?: readonly { readonly message: { readonly text: string } }[];
  }[];
}

const SCHEMAS = path.join(import.meta.dirname, '../../server/src/cli/schemas');

const files: Readonly<Record<keyof Outputs, string>> = {
  'check-1': path.join(SCHEMAS, 'check-1.json'),
  'report-1': path.join(SCHEMAS, 'report-1.json'),
  'compare-1': path.join(SCHEMAS, 'compare-1.json'),
  'repair-1': path.join(SCHEMAS, 'repair-1.json'),
  'propose-1': path.join(SCHEMAS, 'propose-1.json'),
  'identify-1': path.join(SCHEMAS, 'identify-1.json'),
  'fit-1': path.join(SCHEMAS, 'fit-1.json'),
  'switch-1': path.join(SCHEMAS, 'switch-1.json'),
  'wire-1': path.join(SCHEMAS, 'wire-1.json'),
  'list-1': path.join(SCHEMAS, 'list-1.json'),
  sarif: path.join(import.meta.dirname, 'sarif-2.1.0-part.json'),
};

const ajv = new Ajv({
  strict: true,
  allowUnionTypes: true,
  allErrors: true,
  formats: { uri: isUri, 'uri-reference': isUriReference },
});

/** The JSON text as data, which must keep to the schema of that name. */
export function validate<Name extends keyof Outputs>(name: Name, json: string): Outputs[Name] {
  const check = schemaOf(name);
  const data: unknown = JSON.parse(json);
  if (check(data)) return data;
  const errors = (check.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
  assert.fail(`${name}: ${errors.slice(0, 5).join('; ')}`);
}

/** Compiled once: the validator keeps what it has compiled by the schema's address or, without one, by its key here. */
function schemaOf<Name extends keyof Outputs>(name: Name): ValidateFunction<Outputs[Name]> {
  const known = ajv.getSchema<Outputs[Name]>(name);
  if (known) return known;
  ajv.addSchema(JSON.parse(readFileSync(files[name], 'utf8')), name);
  const compiled = ajv.getSchema<Outputs[Name]>(name);
  assert.ok(compiled, name);
  return compiled;
}

function isUri(text: string): boolean {
  return URL.canParse(text);
}

/** RFC 3986, 4.1: a URI or a relative reference, of its characters only. */
function isUriReference(text: string): boolean {
  return /^(?:[\w\-.~!$&'()*+,;=:@/?#[\]]|%[\dA-Fa-f]{2})*$/.test(text) && URL.canParse(text, 'file:///');
}

/** Edits of a published output by offsets in the text that they are of. */
export function editsIn(text: string, edits: readonly EditData[]): readonly Edit[] {
  const lines = text.split('\n');
  const offset = ({ line, character }: Range['start']): number =>
    lines.slice(0, line).reduce((total, each) => total + each.length + 1, 0) + character;
  return edits.map(({ range, newText }) => ({ at: { start: offset(range.start), end: offset(range.end) }, newText }));
}
