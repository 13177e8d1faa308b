/** The commands as manual pages and as what a shell completes: texts made from one model of the command line. */
@NullMarked
package chainage.manual;

import org.jspecify.annotations.NullMarked;
