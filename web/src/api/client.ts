/// One door to the server: every request is typed by the schema, every refusal is a Fault in words.
import type { Conflict, Endpoints, Fault, Problem } from './types';

/** The server answered, and refused. */
export class Refused extends Error {
  constructor(
    readonly fault: Fault,
    readonly status: number,
    readonly conflict: Conflict | null = null,
  ) {
    super(fault.message);
  }
}

/** Nobody answered: the connection is lost, nothing was changed as far as can be known. */
export class Lost extends Error {}

type Values = Record<string, string | number>;

/** The address of an endpoint; values that stand in no brace become the query. */
export function address(endpoint: string, values: Values = {}): string {
  const path = endpoint.slice(endpoint.indexOf(' ') + 1);
  const used = new Set<string>();
  const filled = path.replace(/\{(\w+)\}/g, (_, name: string) => {
    used.add(name);
    return encodeURIComponent(String(values[name] ?? ''));
  });
  const rest = Object.entries(values).filter(([name]) => !used.has(name));
  if (!rest.length) return filled;
  const query = rest.map(([k, v]) => `${k}=${encodeURIComponent(v)}`).join('&');
  return `${filled}${filled.includes('?') ? '&' : '?'}${query}`;
}

function unreadable(status: number): Fault {
  return {
    code: 'io_failed',
    message: `The program answered with status ${status} and no words.`,
    where: null,
    what_to_do: 'Try again; if it stays so, start the program again.',
  };
}

/** Faults come as Refused, a dead connection as Lost. */
export async function call<E extends keyof Endpoints>(
  endpoint: E,
  values: Values = {},
  body?: Endpoints[E]['request'],
): Promise<Endpoints[E]['answer']> {
  const method = endpoint.slice(0, endpoint.indexOf(' '));
  const init: RequestInit = { method, cache: 'no-store' };
  if (method !== 'GET') init.headers = { 'X-Lodeway': '1', 'Content-Type': 'application/json' };
  if (body !== undefined && body !== null) init.body = JSON.stringify(body);
  let answer: Response;
  let text: string;
  try {
    answer = await fetch(address(endpoint, values), init);
    text = await answer.text();
  } catch {
    throw new Lost('The program does not answer.');
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Refused(unreadable(answer.status), answer.status);
  }
  if (answer.ok) return value as Endpoints[E]['answer'];
  if (answer.status === 409 && (value as Conflict).newest) {
    const conflict = value as Conflict;
    throw new Refused(conflict.fault, 409, conflict);
  }
  throw new Refused((value as Problem).fault ?? unreadable(answer.status), answer.status);
}

/** Sends a file with its progress (0 to 1), which fetch cannot tell. */
export function upload(file: File, progress: (share: number) => void): Promise<Endpoints['POST /api/uploads?name={name}']['answer']> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', address('POST /api/uploads?name={name}', { name: file.name }));
    request.setRequestHeader('X-Lodeway', '1');
    request.setRequestHeader('Content-Type', 'application/octet-stream');
    request.upload.onprogress = (e) => e.lengthComputable && progress(e.loaded / e.total);
    request.onerror = () => reject(new Lost('The program does not answer.'));
    request.onload = () => {
      try {
        const value = JSON.parse(request.responseText);
        if (request.status < 400) resolve(value);
        else reject(new Refused(value.fault, request.status));
      } catch {
        reject(new Refused(unreadable(request.status), request.status));
      }
    };
    request.send(file);
  });
}
