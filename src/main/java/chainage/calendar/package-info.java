/**
 * Dates as a calendar file that the rider's own calendar reads: iCalendar, RFC 5545.
 *
 * <p>In go reminders and what was announced before, out comes the text. It knows nothing of chains; what a reminder says is decided elsewhere.
 */
@NullMarked
package chainage.calendar;

import org.jspecify.annotations.NullMarked;
