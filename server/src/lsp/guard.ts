import type { CancellationToken, Connection } from 'vscode-languageserver';
import { type Message, PROTOCOL_VERSION } from './protocol.ts';
import { LSPErrorCodes, ResponseError } from './protocol-library.ts';

/** Tells a failure to whoever keeps the log. */
export type Report = (what: string, error: unknown) => void;

/**
 * Wraps what answers a request. A failure becomes the empty answer and a line in the log, and the server lives; a request
 * cancelled before its turn is answered as cancelled without any work.
 */
export function answering<P, R, E = void>(
  report: Report,
  what: string,
  empty: R,
  answer: (params: P, token: CancellationToken) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R | ResponseError<E>> {
  return async (params, token) => {
    if (token?.isCancellationRequested) return cancelled();
    try {
      const result = await answer(params, token);
      return token?.isCancellationRequested ? cancelled() : result;
    } catch (error) {
      if (error instanceof ResponseError) return error;
      report(what, error);
      return empty;
    }
  };
}

/** An answer before the protocol that it is written in is said. */
type Told<R> = R extends Message ? Omit<R, 'protocol'> : R;

/** Answers a request of our own client. */
export type AnswerOwn = <P, R extends Message | null>(
  method: string,
  what: string,
  empty: Told<R>,
  answer: (params: P, token: CancellationToken) => Told<R> | Promise<Told<R>>,
) => void;

export function answeringOwn(connection: Connection, report: Report): AnswerOwn {
  const asMessage = (told: object | null) => told && { protocol: PROTOCOL_VERSION, ...told };
  return (method, what, empty, answer) => {
    connection.onRequest(
      method,
      answering<Parameters<typeof answer>[0], object | null>(report, what, asMessage(empty), async (params, token) =>
        asMessage(await answer(params, token)),
      ),
    );
  };
}

/** The same for notifications, which have no answer. */
export function heeding<P>(report: Report, what: string, heed: (params: P) => void): (params: P) => void {
  return (params) => {
    try {
      heed(params);
    } catch (error) {
      report(what, error);
    }
  };
}

const cancelled = <E>(): ResponseError<E> => new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
