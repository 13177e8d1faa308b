/**
 * What every command is made of: the ledger it works with, its two forms, to ask and to state, and the options that
 * several share.
 */
@NullMarked
package chainage.command;

import org.jspecify.annotations.NullMarked;
