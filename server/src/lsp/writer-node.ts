import type { Writable } from 'node:stream';
import type { Diagnostic, Message, PublishDiagnosticsParams } from 'vscode-languageserver';
import { AbstractMessageWriter, type MessageWriter } from 'vscode-languageserver/node';
import { attached } from '../../../grammar/values/attached.ts';
import { PublishDiagnosticsNotification } from './protocol-library.ts';

/**
 * Writes each message as a whole: header and content in two pieces wake whoever reads them twice. A finding that was sent before is not
 * made text again, which of a long file takes longer than all else that is done to send its findings.
 */
export class WholeMessageWriter extends AbstractMessageWriter implements MessageWriter {
  readonly #to: Writable;
  #errors = 0;

  constructor(to: Writable) {
    super();
    this.#to = to;
    to.on('error', (error) => this.fireError(error));
    to.on('close', () => this.fireClose());
  }

  write(message: Message): Promise<void> {
    return new Promise((resolve, reject) => {
      const content = isPublication(message) ? publicationParts(message) : [Buffer.from(JSON.stringify(message))];
      const bytes = content.reduce((sum, { length }) => sum + length, 0);
      const header: Buffer = Buffer.from(`Content-Length: ${bytes}\r\n\r\n`);
      const whole = Buffer.concat([header].concat(content));
      this.#to.write(whole, (error) => {
        if (!error) {
          resolve();
          return;
        }
        this.#errors += 1;
        this.fireError(error, message, this.#errors);
        reject(error);
      });
    });
  }

  end(): void {
    this.#to.end();
  }
}

interface Publication extends Message {
  readonly method: string;
  readonly params: PublishDiagnosticsParams;
}

const isPublication = (message: Message): message is Publication =>
  Reflect.get(message, 'method') === PublishDiagnosticsNotification.method;

function publicationParts({ params: { diagnostics, ...params }, ...message }: Publication): readonly Buffer[] {
  // Both end in braces that are opened again for what comes between.
  const head: Buffer = Buffer.from(`${JSON.stringify({ ...message, params }).slice(0, -2)},"diagnostics":[`);
  const list = diagnostics.map(asText);
  const [first] = list;
  if (first) list[0] = first.subarray(COMMA.length);
  return [head].concat(list, Buffer.from(']}}'));
}

const COMMA = ',';

/** With the comma before it. */
const texts = attached<Diagnostic, Buffer>();

function asText(diagnostic: Diagnostic): Buffer {
  const before = texts.get(diagnostic);
  if (before) return before;
  const text = Buffer.from(COMMA + JSON.stringify(diagnostic));
  texts.set(diagnostic, text);
  return text;
}
