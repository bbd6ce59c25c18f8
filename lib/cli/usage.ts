import { relative } from 'node:path';

/** The command was typed wrongly: told with a hint at --help, exit code 2. */
export class UsageError extends Error {}

/** What `temperbook --help` prints. */
const HELP = `What heat did to an aluminium part, from your temperature log. What one command
takes: temperbook review --help

  temperbook new <folder>
      Makes a folder that runs at once: a job file with comments, an invented
      log, your shop's defaults, a notebook.

  temperbook review <job.json>
  temperbook review <log file> --alloy A356-T6 --out <folder>
      Reads your logger's file, says for each probe whether the temper held,
      and writes a record that you can print and sign. Of a log alone it asks
      what is missing, and writes the job file beside the record. Several
      logs, or a folder of them: each by itself, then a table of all.

  temperbook watch <job.json>
  temperbook watch <log file> --alloy A356-T6 --out <folder>
      Follows a log while it is being written: temperature, time and allowance
      left, and a bell when to stop, here and on a page on this machine. Ends
      with Ctrl-C and the record that review would write.

  temperbook compare <log, job, plan or record> <another> …
      The same weld twice, a plan against its log, or a weld against the last
      ten on a shelf, side by side.

  temperbook amend <record.json> --reading "TC1 brinell 68 75"
      Adds a reading, a correction, a decision or a signature to a record: a new
      edition beside the one before, with what changed.

  temperbook audit <folder>
      Checks a folder of records: that none was changed by hand, that editions
      follow one another, and that nothing is missing between them.

  temperbook heat "390F 1.5h" --alloy A356-T6
      A heat that nobody logged, from what was told of it; or several, and the
      log of a weld among them, in their order: log.csv "3 x 200C 20min". Points
      off a paper chart too: "0min 70F, 12min 395F, 40min 400F".

  temperbook certificate <file.json> --lot HB-07
      What a coater's certificate without a chart vouches for, what it leaves
      out, and with --alloy what may be concluded of the strength.

  temperbook probes <short log> --step "ice water 30s to 90s" …
      Reads a check of the probes before a weld: wrong type, wires or probes
      swapped, an offset, a loose plug, what the arc does to them.

  temperbook parts <folder>
      A folder of records as a register: every part with its verdict, the newest
      edition standing for it, and what needs looking at. A record that nobody
      touched since it was written is not read again; audit checks them all.

  temperbook chart <log file> --schedule "A356.0 T6"
      Checks a furnace chart against a heat-treat schedule: every requirement
      met, not met, or cannot tell and what is missing. Solution and ageing in
      files of their own, or a chart that was interrupted: all its files.

  temperbook lot <lot.json> --out <card.json>
      What coupons, a furnace chart or both say of a lot of metal: weighs the
      kit's plausible metals by them and writes its card, for review --lot.

  temperbook size <file.json> --out <folder>
      How much metal makes up for the soft zone: the thickness of a welded
      section that reaches a factor of safety, and what governs it.

  temperbook run <notebook> --set name=value --out <folder>
      Works through a notebook without Jupyter and writes its results as a
      web page and as a copy of the notebook.

  temperbook jupyter [folder]
      Opens the folder's notebooks in Jupyter, to read, change and run them.

For review:
  --alloy <metal>      what the part is made of, with its temper: A356-T6,
                       6061-T6 … (A356.0, 356.0, 6061, 6063, 6082)
  --temper <name>      its temper before welding, where --alloy leaves it out
  --out <folder>       where the record goes; made if it is not there. Of a
                       job file: beside it, unless you say
  --loss <percent>     how much of its strength it may lose; 10 unless you say
  --limit <temp>       your shop's limit, such as 440F or 227C
  --attached <how>     how the probes were fixed, such as "peened hole"
  --probe "name=6061-T6"
                       a probe that sits on something else; once per probe
  --role "name=air"    a probe that reads no metal: air, or unused
  --defaults <file>    your shop's defaults; shop-defaults.json beside the log
                       or where you stand unless you say
  --reading "probe kind value cold"
                       read at the bench after the heat, as for amend; it
                       weighs the verdict
  --lot <card.json>    what coupons say of this lot of metal (temperbook lot)
  --check <check.json> what a check of the probes found before (temperbook
                       probes)
  --job name=value     a line for the record, such as part=HB-07, operator=…
  --read <options>     how to read the file where it leaves something open,
                       such as '{"unit": "°F"}'; the message says what to give

For heat:
  "<temperature> <time>"
                       with their units, counted from the door: "390F 1.5h",
                       "8 x 200C 20min"; "200C 10min at metal" counts from when
                       the metal itself was hot
  --alloy, --temper, --loss, --attached
                       as for review
  --oven <name>        "class 5" of its last survey, "±15F" as it was measured,
                       or kitchen; the loosest unless you say
  --wall <length>      the heaviest wall, such as 6mm or 1/4in
  --fan <yes or no>    whether a fan moves the air
  --stick "400F melted"
                       a temperature stick or label on it in the last heat;
                       "TC1=450F not melted" where a log has several places. Of
                       other heats: a job file, with sticks at each heat
  --alloy "like 356, temper not known"
                       every metal it may be; the word must hold for each
  --brinell <number>   read on metal that saw no heat: rules tempers out
  --within <span>      of points: how far one may be off, such as 5F
  --between <what>     of points: "the curve" where every high and low was
                       typed, "not known" for readings written down in between
  --ticket <file>      a page for the coater, as text

For certificate:
  <file.json>          what stands on it: lot, set, metal, metalPlaces, time,
                       counted, oven, surveyed, bakes, signed
  --lot <name>         the lot of the part in hand
  --alloy, --temper, --loss, --wall, --fan
                       as for heat

For probes:
  --step "<what> <from> to <to>"
                       ice water; boiling water … at 1500m (or 5000ft, 98kPa);
                       tap water … at 15C; all together; one alone TC1;
                       wiggle; arc (on scrap, torch away): once per step
  --type <letter>      of the wire the logger was set to; K unless you say
  --out <check.json>   keeps the check, for review --check

For amend:
  --reading "probe kind value cold"
                       read at the bench: brinell, vickers, rockwellE,
                       rockwellF, rockwellB, webster, conductivity or yield;
                       then the same on cold metal of this part, if known
  --attached "probe=how"
                       how a probe was really fixed; a reading or this judges
                       again what the record keeps, and shows both
  --decide <what>      accept, "accept with condition", re-age, re-heat-treat,
                       reject or escalate; with --reason "…" and --condition "…"
  --job name=value     a line of the record, added or corrected
  --sign "role=name"   who signed, such as "Checked by=bench 2"

For watch: all of review, and
  --port <number>      of the page on this machine; 0, or left out, takes any
                       that is free

For compare: alloy, temper and so on as for review, for logs and plans, and
  --shelf <folder>     the newest records of a folder beside it
  --last <number>      how many of them; 10 unless you say
  --out <page.html>    the comparison with its traces as a page

For parts:
  --alloy, --word, --part, --from, --to
                       only parts of this alloy, verdict (kept, uncertain,
                       lost), number or job, or days (2031-05-14)
  --undecided          only parts nobody has decided about
  --again              judge again where a decision was made with a card,
                       members or a version that is not the same today
  --out <page.html>    the register with its trends as one page

For chart:
  --schedule <name>    the schedule, by alloy and temper or its whole name, or
                       the path of your own (a .json file)
  --sensor name=place  what a sensor sits in, where its name does not tell:
                       load, air, "quench water" or "left out"
  --thickness <mm>     of the heaviest section; wrought schedules go by it
  --pause <time>       from the end of a chart to the next one, such as 25h, in
                       place of their clocks; once for each but the first
  --out <picture>      the chart with its bands and requirements, an .svg file
  --read <options>     as above

For lot:
  <lot.json>           name, alloy, temper and coupons, as in
                       data/demo/hinge-block-coupons.json; chart, as under lot
                       in data/demo/furnace-job.json
  --out <card.json>    where the card goes; a card that stands there stays

For size:
  <file.json>          section, metal, loads and factor, each with its unit, as
                       in data/demo/mast-foot-size.json
  --out <folder>       the section and the factor against thickness as pictures

For run:
  --set name=value     sets a value the notebook asks for; as often as you need
  --out <folder>       where the results go; made if it is not there
  --no-code            leaves the code out of the web page

For amend, chart, compare, heat, parts, review, run, size and watch:
  --units us           °F, in, ksi, lbf and ft·lb first, here, on pages and in
                       pictures, with °C, mm and MPa beside them; data files
                       are the same either way. Of a notebook it sets units

Exit code: 0 done, 1 something is wrong with a file or value, 2 the command
was typed wrongly.
`;

/** What of the help is about one command, with the exit codes; all of it where no command is named. */
export function helpOf(command: string | undefined): string {
  if (command === undefined) return HELP;
  const about = new RegExp(`^  temperbook ${command}\\b|^For [^:]*\\b${command}\\b[^:]*:|^Exit code`, 'm');
  return HELP.split('\n\n')
    .filter((block) => about.test(block))
    .join('\n\n');
}

/** A value that must be given. */
export function required(value: string | undefined, what: string): string {
  if (value === undefined || value === '') throw new UsageError(`${what} is missing`);
  return value;
}

/** The one thing a command is about. */
export function onlyOne([first, ...more]: readonly string[], what: string): string {
  if (more.length > 0) throw new UsageError(`one at a time, please: what is "${more.join(' ')}"?`);
  return required(first, what);
}

/** The two sides of `name=value`. */
export function keyValue(option: string, text: string): [name: string, value: string] {
  const [, name, value] = /^([^=]+)=(.*)$/s.exec(text) ?? [];
  if (name === undefined || value === undefined) {
    throw new UsageError(`${option} takes name=value, not "${text}"`);
  }
  return [name, value];
}

/** A path as seen from where the user stands, unless that leads upwards. */
export function shortest(path: string): string {
  const fromHere = relative('', path);
  return fromHere.startsWith('..') ? path : fromHere;
}

/** An option that takes yes or no. */
export function yesOrNo(option: string, text: string): boolean {
  if (text === 'yes' || text === 'no') return text === 'yes';
  throw new UsageError(`${option} takes yes or no, not "${text}"`);
}
