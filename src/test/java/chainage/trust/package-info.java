/**
 * What the program survives: it is killed, starved of disk, run many times at once, and fed with harm, and nothing may
 * be lost. Each {@link Trial} tries one kind of fault on the built program and says how often; the profile {@code trust}
 * of the pom runs {@link Trust}, which prints them as one table.
 */
@NullMarked
package chainage.trust;

import org.jspecify.annotations.NullMarked;
