/**
 * The command line: each command declares its options, calls one thing and answers an exit code. Nothing uses this
 * package; it alone starts with the machine's clock and writes to its terminal.
 */
@NullMarked
package chainage.cli;

import org.jspecify.annotations.NullMarked;
