import { Command, CommanderError } from 'commander';
import { tr } from '../words/tr.ts';
import { InputAtFault, NotSound } from './disk.ts';
import { addFileCommands } from './file-commands.ts';
import { addReports } from './report-commands.ts';
import type { Terminal } from './terminal.ts';

/** What a command ended with: 0 done, 1 the input is at fault, 2 wrong usage. */
export type ExitCode = 0 | 1 | 2;

/** Runs one command of the command line and says how it ended. */
export async function slabwright(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const program = new Command('slabwright')
    .description(tr`Measures the slabs of a job and works out what coating them takes.`)
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .exitOverride();
  addReports(program, terminal);
  addFileCommands(program, terminal);
  try {
    await program.parseAsync(args, { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof NotSound) return 1;
    if (error instanceof InputAtFault) {
      terminal.err(`${error.message}\n`);
      return 1;
    }
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    throw error;
  }
}
