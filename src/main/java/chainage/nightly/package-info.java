/**
 * A job that runs every night, as the text that each platform's scheduler reads: a systemd timer and service, a line of
 * a crontab, a launchd property list.
 *
 * <p>In goes what to run and when, out come texts. It writes nothing and starts nothing.
 */
@NullMarked
package chainage.nightly;

import org.jspecify.annotations.NullMarked;
