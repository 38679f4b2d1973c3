// One part of the page's tests on its own program and browser: PART names it.
import { after, before, describe, it } from 'node:test';
import { launch, start_program } from './browser.mjs';

const name = process.env.PART;
const { default: part } = await import(`./${name}.mjs`);
const world = { program: null, browser: null, note: (text) => console.log(`# ${text}`) };

describe(`the page, ${name}`, () => {
  before(async () => {
    // A walk from an empty start makes the demo ground itself; the others are given one, made once.
    world.program = await start_program({ ground: name === 'walk_through' ? null : process.env.LODEWAY_GROUND });
    world.begin = `${world.program.url}#/-/ground`;
    world.browser = await launch();
  });
  after(async () => {
    await world.browser?.close();
    await world.program?.stop();
  });
  part(it, world);
});
