/// The one event stream of a page. It mends itself: a lost server is asked again until it answers.
import type { Event } from './types';

const retry_ms = 1000;

/** `heard` gets every event; `lost` is told once each time the stream breaks. Answers how to stop. */
export function listen(heard: (event: Event) => void, lost: () => void): () => void {
  let source: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;

  const open = () => {
    source = new EventSource('/api/events');
    source.onmessage = (message) => heard(JSON.parse(message.data) as Event);
    source.onerror = () => {
      source?.close();
      lost();
      if (!stopped) timer = setTimeout(open, retry_ms);
    };
  };
  open();
  return () => {
    stopped = true;
    clearTimeout(timer);
    source?.close();
  };
}
