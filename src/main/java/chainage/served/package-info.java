/**
 * The page as browsers of this machine have it: forms made of what commands declare, carried out as if typed.
 */
@NullMarked
package chainage.served;

import org.jspecify.annotations.NullMarked;
