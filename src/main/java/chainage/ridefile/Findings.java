package chainage.ridefile;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.RideFold;
import chainage.ride.RideFormat;
import chainage.ride.Sample;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Collects what one file holds and settles each activity: its date, its distance, or why it is none. */
public final class Findings {
    /** Nobody recorded a ride before; a device whose clock was never set starts in 1989, 1990 or 1970. */
    private static final Instant EARLIEST = Instant.parse("2000-01-01T00:00:00Z");

    /** A month; a longer summary is a broken number (our guess). */
    private static final double LONGEST_SECONDS = 31 * 86_400.0;

    /**
     * A stated time this many times below the samples' time in motion is a broken number (our guess). Not below their
     * span: some devices leave pauses out of it, and pauses can be long.
     */
    private static final double ELAPSED_FACTOR = 10;

    /** Farther than a receiver at rest wanders (our guess). */
    private static final double SURELY_MOVED_METRES = 500;

    /** Words are evidence for the road's condition; nobody writes more than this about one ride. */
    private static final int LONGEST_LABEL = 4000;

    private static final String EXPORT_AGAIN = "export it again";
    private static final String SET_THE_CLOCK =
            "set the device's clock and export again, or correct the date in the file";

    private static final String SET_EITHER_CLOCK =
            SET_THE_CLOCK + "; where this computer's clock is wrong, set it and import again";

    private final RideFormat format;
    private final ContentDigest digest;
    private final Instant latest;
    private final List<Ride> activities = new ArrayList<>();
    private final List<Decoded.Passed> passed = new ArrayList<>();
    private @Nullable Instant ahead;

    Findings(RideFormat format, ContentDigest digest, Instant latest) {
        this.format = format;
        this.digest = digest;
        this.latest = latest;
    }

    /** Notes a part of the file that is no activity. */
    public void pass(int session, boolean refused, String what, String hint) {
        passed.add(new Decoded.Passed(session, refused, what, hint));
    }

    /** True when neither an activity nor anything else was found. */
    public boolean isEmpty() {
        return activities.isEmpty() && passed.isEmpty();
    }

    /** How many dated activities were found. */
    public int activities() {
        return activities.size();
    }

    Decoded decoded() {
        return new Decoded(format, activities, passed, ahead);
    }

    /** Settles one activity. */
    public void add(Draft d) {
        List<String> remarks = new ArrayList<>(d.remarks());
        RideFold.Totals t = d.fold().totals();
        Stated s = d.stated();
        double statedElapsed = sane(s.elapsedSeconds());
        double timer = sane(s.timerSeconds());
        double elapsed = statedElapsed > 0 ? statedElapsed : timer > 0 ? timer : t.elapsedSeconds();
        if (elapsed > 0 && t.clockJumps() == 0 && t.movingSeconds() > ELAPSED_FACTOR * elapsed) {
            remarks.add("the file says that it took " + Math.round(elapsed) + " s, its samples span "
                    + Math.round(t.elapsedSeconds()) + " s, which are used");
            elapsed = t.elapsedSeconds();
            timer = timer < t.movingSeconds() / ELAPSED_FACTOR ? Double.NaN : timer;
        }
        boolean other = d.activity().kind() == Kind.OTHER;

        Instant start = start(d, t, elapsed, remarks);
        if (start == null) {
            boolean broken = d.unreadableTimes() > 0;
            pass(
                    d.session(),
                    broken && !other,
                    broken
                            ? "no readable times (no dates: " + d.unreadableTimes() + ")"
                            : "no times: it cannot be dated, so no chain can be named",
                    broken && !other ? EXPORT_AGAIN : "");
            return;
        }
        boolean late = isAhead(start);
        if (start.isBefore(EARLIEST) || late) {
            String what = name(d) + " dated " + start + ", a clock that was not set";
            pass(d.session(), !other, what, other ? "" : late ? SET_EITHER_CLOCK : SET_THE_CLOCK);
            return;
        }
        Ride.@Nullable Distance distance =
                Distances.choose(s, d.activity(), t, Math.max(elapsed, t.elapsedSeconds()), remarks);
        if (distance == null) {
            String what = name(d) + " with an impossible distance of " + Math.round(s.metres()) + " m";
            pass(d.session(), !other, what, other ? "" : "correct the distance in the file, or export it again");
            return;
        }
        if (distance.from() == Ride.MetresFrom.NONE && d.unreadable() > 0) {
            String what = name(d) + " whose distance, positions or speeds are not numbers";
            pass(d.session(), !other, what, other ? "" : EXPORT_AGAIN);
            return;
        }
        if (d.salvaged() != null && distance.metres() == 0 && t.timed() < 2) {
            pass(d.session(), !other, d.salvaged(), other ? "" : "copy or export it again");
            return;
        }
        if (elapsed == 0 && t.timed() > 1 && distance.metres() > SURELY_MOVED_METRES) {
            // Kept: the metres and the day are there, which is all a chain needs. The rider can exclude a mere plan.
            remarks.add("all points carry one time: dated, but without a duration");
        }
        activities.add(new Ride(
                new RideKey(digest, d.session()),
                format,
                start,
                elapsed,
                Math.min(timer > 0 ? timer : t.movingSeconds(), elapsed),
                distance,
                new Ride.Effort(
                        s.ascentMetres() >= 0 && s.ascentMetres() < 30_000 ? s.ascentMetres() : t.ascentMetres(),
                        t.celsius(),
                        s.watts() > 0 && s.watts() <= 3000 ? s.watts() : t.watts(),
                        t.medianSpeed(),
                        t.samples()),
                d.activity(),
                t.pedalling(),
                d.devices(),
                d.weather(),
                new Ride.Labels(
                        brief(d.labels().title()),
                        brief(d.labels().notes()),
                        brief(d.labels().keywords())),
                d.fold().trace().stream().filter(w -> !w.at().isBefore(start)).toList(),
                remarks,
                d.salvaged(),
                d.offset(),
                other ? PowerTrace.NONE : d.fold().power()));
    }

    /**
     * The activity's first instant. Where the clock was wrong at first and then set, the time after the jump holds:
     * the start is the last sample's instant minus the elapsed time.
     */
    private @Nullable Instant start(Draft d, RideFold.Totals t, double elapsed, List<String> remarks) {
        boolean timed = t.timed() > 0;
        Instant start = d.stated().start();
        if (start == null) {
            start = timed ? Instant.ofEpochMilli(t.firstMillis()) : null;
        }
        if (start == null || !timed) {
            return start;
        }
        Instant last = Instant.ofEpochMilli(t.lastMillis());
        double beyond = Duration.between(start, last).toMillis() / 1000.0 - elapsed;
        boolean unset = start.isBefore(EARLIEST) && !last.isBefore(EARLIEST);
        if (d.clockMayJump()
                && d.salvaged() == null
                && beyond > RideFold.CLOCK_JUMP_SECONDS
                && (t.clockJumpSeconds() > RideFold.CLOCK_JUMP_SECONDS || unset)) {
            Instant corrected = last.minusMillis(Math.round(elapsed * 1000));
            if (!isAhead(corrected)) {
                remarks.add("the clock was wrong at first (" + start + ") and was set during the ride: starts "
                        + corrected);
                return corrected;
            }
        }
        boolean wrong = start.isBefore(EARLIEST) || isAhead(start);
        if (wrong && t.firstSetMillis() != Sample.NO_TIME) {
            Instant set = Instant.ofEpochMilli(t.firstSetMillis());
            if (!isAhead(set)) {
                remarks.add("dated " + start + ", a clock that was not set; the first sample after is used");
                return set;
            }
        }
        if (t.clockJumps() > 0) {
            remarks.add("jumps of more than 20 h in the times: " + t.clockJumps() + ", left out of the elapsed time");
        }
        return start;
    }

    /** Whether a date lies ahead of the clock; remembers the earliest that does. */
    private boolean isAhead(Instant date) {
        boolean late = date.isAfter(latest);
        if (late && (ahead == null || date.isBefore(ahead))) {
            ahead = date;
        }
        return late;
    }

    private static String brief(String words) {
        return words.length() <= LONGEST_LABEL ? words : words.substring(0, LONGEST_LABEL);
    }

    private static double sane(double seconds) {
        return seconds >= 0 && seconds <= LONGEST_SECONDS ? seconds : Double.NaN;
    }

    private static String name(Draft d) {
        String sport = d.activity().sport();
        return sport.isEmpty() ? "an activity" : "an activity (" + sport + ")";
    }
}
