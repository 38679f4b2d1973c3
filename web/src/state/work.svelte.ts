/// Long work: asked for, watched, stopped, and its results. What was found for a document that has changed
/// since is kept and marked as out of date.
import { call, Lost, Refused } from '../api/client';
import type { Daylight, Job, Paper, Rehearsal, Sheets, Way, WayName, Ways } from '../api/types';
import { messages } from './messages.svelte';
import { part } from './points';
import { trip } from './trip.svelte';
import { view } from './view.svelte';

type Kind = Job['kind'];
const titles: Record<Kind, string> = {
  ground: 'The ground was not built',
  ways: 'No ways were found',
  rehearsal: 'The rehearsal did not run',
  paper: 'The paper was not made',
};

/** What the answer depends on: what is written on the paper alone changes no way. */
const matter = () => {
  const { name: _n, home: _h, ...rest } = trip.document;
  return JSON.stringify([trip.state?.ground_id, trip.state?.party_file, rest]);
};

/** This browser has had ways of this trip: opening it again asks for them again. */
const found_key = (id: string) => `lodeway:found:${id}`;
const was_found = (id: string) => {
  try {
    return localStorage.getItem(found_key(id)) !== null;
  } catch {
    return false;
  }
};
const keep_found = (id: string) => {
  try {
    localStorage.setItem(found_key(id), '1');
  } catch {
    // Without storage the leader asks again by hand.
  }
};

/** The place of the trip that a search speaks of: it names it first. */
function stuck_at(message: string): number {
  return (trip.document.point ?? []).findIndex((p) => message.startsWith(`${p.name || p.at} `) || message.startsWith(`${p.name || p.at}:`));
}

class Work {
  jobs = $state<Partial<Record<Kind, Job>>>({});
  day = $state.raw<Daylight | null>(null);
  ways = $state.raw<Ways | null>(null);
  rehearsal = $state.raw<Rehearsal | null>(null);
  sheets = $state.raw<Sheets | null>(null);
  paper = $state.raw<Paper | null>(null);
  /** The clock when the ways were found. */
  found_at = $state('');
  private found_for = $state('');
  private walked_for = $state('');
  private printed_for = $state('');
  /** What each work in hand was asked for, so that a change meanwhile makes its answer one of before. */
  private asked_for: Partial<Record<Kind, string>> = {};
  private asked: Partial<Record<Kind, () => Promise<Job>>> = {};
  private last_heard = new Map<string, Job>();
  /** Done, but what they gave is not read yet: to the leader they still run. */
  private unread = new Map<string, Job>();
  private when_ways: (() => void)[] = [];
  private when_ground: ((id: string) => void) | null = null;
  when_lost: () => void = () => {};

  ways_old = $derived(this.ways !== null && this.found_for !== matter());
  way = $derived<Way | null>(this.pick());
  rehearsal_old = $derived(this.is_old(this.rehearsal, this.walked_for, this.key()));
  paper_old = $derived(this.is_old(this.paper, this.printed_for, this.paper_key()));

  private pick(): Way | null {
    const ways = this.ways?.ways ?? [];
    const wanted = trip.state?.chosen_way;
    return ways.find((w) => w.name === wanted) ?? ways.find((w) => w.name === 'middle') ?? ways[0] ?? null;
  }
  /** What was read after a reload is as new as its revision; what was asked for here, as its document. */
  private is_old(result: { revision: number } | null, made_for: string, now: string): boolean {
    if (!result) return false;
    return made_for ? made_for !== now : result.revision !== trip.known?.revision;
  }
  private key(): string {
    return `${this.way?.name} ${matter()}`;
  }
  private paper_key(): string {
    return JSON.stringify([this.way?.name, trip.state]);
  }

  /** What was found, by what it was found for: undo brings it back. The last few only. */
  private kept_ways = new Map<string, { ways: Ways; at: string }>();
  private kept_rehearsals = new Map<string, Rehearsal>();
  private static keep<T>(map: Map<string, T>, key: string, value: T): void {
    map.delete(key);
    map.set(key, value);
    const [oldest] = map.keys();
    if (map.size > 8 && oldest !== undefined) map.delete(oldest);
  }
  /** The trip is as it was when something was found for it: that stands again. */
  bring_back(): void {
    const ways = this.ways_old && !this.running('ways') ? this.kept_ways.get(matter()) : undefined;
    if (ways) {
      this.ways = ways.ways;
      this.found_at = ways.at;
      this.found_for = matter();
    }
    const rehearsal = this.rehearsal_old && !this.ways_old ? this.kept_rehearsals.get(this.key()) : undefined;
    if (rehearsal) {
      this.rehearsal = rehearsal;
      this.walked_for = this.key();
    }
  }

  running(kind: Kind): Job | null {
    const job = this.jobs[kind];
    return job && (job.state === 'running' || job.state === 'waiting') ? job : null;
  }
  forget(): void {
    this.day = this.ways = this.rehearsal = this.sheets = this.paper = null;
    this.asked = {};
    this.jobs = this.jobs.ground ? { ground: this.jobs.ground } : {};
    this.unread.clear();
    this.kept_ways.clear();
    this.kept_rehearsals.clear();
  }

  /** Another of the ways that were found. */
  choose(name: WayName): void {
    trip.set('/chosen_way', name);
  }
  look_for_ways = () => this.ask('ways', (id, revision) => call('POST /api/trips/{id}/ways', { id }, { revision }));
  rehearse(walkers: number): Promise<void> {
    return this.ask('rehearsal', (id, revision) =>
      this.with_ways((way) => call('POST /api/trips/{id}/rehearsal', { id }, { revision, way, walkers })));
  }
  make_paper(large_type: boolean): Promise<void> {
    return this.ask('paper', (id, revision) =>
      this.with_ways((way) => call('POST /api/trips/{id}/paper', { id }, { revision, way, large_type })));
  }
  async build_ground(start: () => Promise<Job>, then: (id: string) => void): Promise<void> {
    this.when_ground = then;
    await this.run('ground', start);
  }
  /** A ground in the making is no trip's: who comes back to the page sees its bar, and can stop it. */
  async ground_in_hand(then: (id: string) => void): Promise<void> {
    if (this.jobs.ground) return;
    await this.guarded('', '', async () => {
      const { jobs } = await call('GET /api/jobs');
      const job = jobs.find((j) => j.kind === 'ground' && (j.state === 'running' || j.state === 'waiting'));
      if (!job || this.jobs.ground) return;
      this.when_ground = then;
      this.jobs.ground = { ...job, state: 'running' };
      this.heard(this.last_heard.get(job.id) ?? job);
    });
  }
  async lay_sheets(): Promise<void> {
    const known = trip.known;
    if (!known || !this.way || this.ways_old) return;
    await this.guarded('sheets', 'The sheets could not be laid', async () => {
      this.sheets = await this.with_ways((way) =>
        call('POST /api/trips/{id}/sheets', { id: known.id }, { revision: known.revision, way }));
    });
  }
  async read_day(): Promise<void> {
    const id = trip.known?.id;
    if (id) await this.guarded('', '', async () => (this.day = await call('GET /api/trips/{id}/day', { id })));
  }

  /** After the page was loaded again: what this trip was last given, if the program still has it. */
  async remember(id: string): Promise<void> {
    await this.guarded('', '', async () => {
      const { jobs } = await call('GET /api/jobs');
      // The list has the newest first.
      const of = (kind: Kind) => jobs.find((j) => j.trip_id === id && j.kind === kind && j.state === 'done');
      if (was_found(id)) await this.look_for_ways();
      for (const kind of ['rehearsal', 'paper'] as const) {
        const job = of(kind);
        if (!job || job.revision !== trip.known?.revision) continue;
        if (kind === 'rehearsal') this.rehearsal = await call('GET /api/rehearsals/{job}', { job: job.id });
        else this.paper = await call('GET /api/papers/{job}', { job: job.id });
        if (kind === 'rehearsal') this.walked_for = '';
        else this.printed_for = '';
      }
    });
  }

  async stop(kind: Kind): Promise<void> {
    const job = this.running(kind);
    delete this.asked[kind];
    if (job) await this.guarded('stop', 'It could not be stopped', async () => this.heard(await call('DELETE /api/jobs/{id}', { id: job.id })));
  }

  /** From the event stream, or from the answer that began it. */
  heard(job: Job): void {
    this.last_heard.set(job.id, job);
    const mine = this.jobs[job.kind];
    if (mine?.id !== job.id) return;
    if (mine.state === 'done' || mine.state === 'failed' || mine.state === 'cancelled') return;
    if (job.state === 'done') {
      if (this.unread.has(job.id)) return;
      this.unread.set(job.id, job);
      this.jobs[job.kind] = { ...job, state: 'running' };
      void this.fetch_result(job);
      return;
    }
    this.jobs[job.kind] = job;
    if (job.state === 'failed' && job.fault) {
      delete this.asked[job.kind];
      const place = job.kind === 'ways' ? stuck_at(job.fault.message) : -1;
      messages.fault(job.kind, titles[job.kind], job.fault, place < 0 ? [] : [{ words: 'Move this place', main: true, run: () => {
        messages.take_back(job.kind);
        view.go('way');
        const points = trip.document.point ?? [];
        view.task = { kind: 'point', index: place, insert: false, words: part(place, points.length).toLowerCase() };
      } }]);
    }
  }
  /** The program was started again and knows nothing of the work in hand: it is asked for once more. */
  async ask_again(): Promise<void> {
    this.unread.clear();
    for (const kind of Object.keys(this.asked) as Kind[]) {
      const again = this.asked[kind];
      if (again && this.running(kind)) await this.run(kind, again);
    }
  }

  /** The link is back and the program has not stopped: what was done meanwhile is read. */
  async read_again(): Promise<void> {
    await Promise.all([...this.unread.values()].map((job) => this.fetch_result(job)));
  }

  private async ask(kind: Kind, start: (id: string, revision: number) => Promise<Job>): Promise<void> {
    await this.run(kind, async () => {
      await trip.settled();
      const { id, revision } = trip.known!;
      this.asked_for[kind] = kind === 'ways' ? matter() : kind === 'paper' ? this.paper_key() : this.key();
      return start(id, revision);
    });
  }
  private async run(kind: Kind, start: () => Promise<Job>): Promise<void> {
    messages.take_back(kind);
    this.asked[kind] = start;
    await this.guarded(kind, titles[kind], async () => {
      const job = await start();
      this.jobs[kind] = { ...job, state: 'running' };
      // What was done at once may have been told by the stream before this answer came.
      this.heard(this.last_heard.get(job.id) ?? job);
    });
  }
  /** The server keeps ways in memory only: after a restart they are found again first. */
  private async with_ways<T>(what: (way: WayName) => Promise<T>): Promise<T> {
    const name = this.way?.name ?? 'middle';
    try {
      return await what(name);
    } catch (e) {
      if (!(e instanceof Refused) || e.fault.code !== 'not_ready') throw e;
      const found = new Promise<void>((done) => this.when_ways.push(done));
      await this.look_for_ways();
      await found;
      return what(this.way?.name ?? name);
    }
  }
  private async fetch_result(job: Job): Promise<void> {
    const id = job.id;
    await this.guarded(job.kind, 'The result could not be read', async () => {
      try {
        const take = await this.read(job);
        if (this.jobs[job.kind]?.id === id) take();
      } catch (e) {
        if (e instanceof Lost) return this.when_lost();  // read when the link is back
        this.has_been_read(job);
        throw e;
      }
      this.has_been_read(job);
    });
  }
  private has_been_read(job: Job): void {
    this.unread.delete(job.id);
    if (this.jobs[job.kind]?.id !== job.id) return;
    this.jobs[job.kind] = job;
    delete this.asked[job.kind];
  }
  /** What the job gave, and how it is taken in. */
  private async read(job: Job): Promise<() => void> {
    const id = job.id;
    if (job.kind === 'ways') {
      const ways = await call('GET /api/ways/{job}', { job: id });
      return () => {
        this.ways = ways;
        this.found_for = this.asked_for.ways ?? '';
        Work.keep(this.kept_ways, this.found_for, { ways, at: new Date().toTimeString().slice(0, 5) });
        this.found_at = new Date().toTimeString().slice(0, 5);
        if (trip.known) keep_found(trip.known.id);
        this.day = ways.daylight;
        this.when_ways.splice(0).forEach((done) => done());
      };
    }
    if (job.kind === 'rehearsal') {
      const rehearsal = await call('GET /api/rehearsals/{job}', { job: id });
      return () => {
        this.rehearsal = rehearsal;
        this.walked_for = this.asked_for.rehearsal ?? '';
        Work.keep(this.kept_rehearsals, this.walked_for, rehearsal);
      };
    }
    if (job.kind === 'paper') {
      const paper = await call('GET /api/papers/{job}', { job: id });
      return () => {
        this.paper = paper;
        this.printed_for = this.asked_for.paper ?? '';
      };
    }
    return () => {
      if (job.ground_id) this.when_ground?.(job.ground_id);
    };
  }
  private async guarded(key: string, title: string, what: () => Promise<unknown>): Promise<void> {
    try {
      await what();
    } catch (e) {
      if (e instanceof Lost) this.when_lost();
      else if (e instanceof Refused) key && messages.fault(key, title, e.fault);
      else throw e;
    }
  }
}
export const work = new Work();
