/**
 * The command line: parses what was typed, calls one thing, prints the answer. The only package that wires the others
 * together, reads the clock, and writes to the terminal.
 */
@NullMarked
package chainage.cli;

import org.jspecify.annotations.NullMarked;
