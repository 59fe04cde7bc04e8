import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';

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
