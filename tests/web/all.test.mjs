// One program and one browser for all, in an order; each file says what it tests.
import { after, before, describe, it } from 'node:test';
import accessible from './accessible.mjs';
import { launch, start_program } from './browser.mjs';
import by_clicking from './by_clicking.mjs';
import by_hand from './by_hand.mjs';
import by_keyboard from './by_keyboard.mjs';
import early_click from './early_click.mjs';
import everywhere from './everywhere.mjs';
import killed from './killed.mjs';
import own_ground from './own_ground.mjs';
import on_a_phone from './on_a_phone.mjs';
import two_windows from './two_windows.mjs';
import way from './way.mjs';

const world = { program: null, browser: null, note: (text) => console.log(`# ${text}`) };

describe('the page', () => {
  before(async () => {
    world.program = await start_program();
    world.begin = `${world.program.url}#/-/ground`;
    world.browser = await launch();
  });
  after(async () => {
    await world.browser?.close();
    await world.program?.stop();
  });
  by_clicking(it, world);
  by_keyboard(it, world);
  by_hand(it, world);
  on_a_phone(it, world);
  way(it, world);
  own_ground(it, world);
  two_windows(it, world);
  early_click(it, world);
  everywhere(it, world);
  killed(it, world);
  accessible(it, world);
});
