/**
 * The machine that the program runs on, as its user has it: where the ledger is, files written for the rider, the
 * scheduler and its job texts, what opens a page, the program's own files, and what makes its start quick.
 *
 * <p>It carries out no command, and knows nothing of rides and answers.
 */
@NullMarked
package chainage.host;

import org.jspecify.annotations.NullMarked;
