package chainage.ridefile.fit;

import chainage.ride.Sample;
import chainage.ridefile.Stated;
import com.garmin.fit.LapMesg;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** What the laps of one session amount to, or those of a part that has no session. */
final class Laps {
    private long first = Sample.NO_TIME;
    private long last = Sample.NO_TIME;
    private double timer;
    private double metres;

    void add(Message m) {
        double elapsed = m.number(LapMesg.TotalElapsedTimeFieldNum);
        double ran = m.number(LapMesg.TotalTimerTimeFieldNum);
        double ridden = m.number(LapMesg.TotalDistanceFieldNum);
        timer += ran > 0 ? ran : 0;
        metres += ridden > 0 ? ridden : 0;
        double length = elapsed > 0 ? elapsed : ran > 0 ? ran : 0;
        long start = start(m, length);
        if (start != Sample.NO_TIME) {
            first = first == Sample.NO_TIME ? start : Math.min(first, start);
            last = Math.max(last, start + Math.round(length * 1000));
        }
    }

    /** A lap's start; one without is dated back from its own timestamp, which is its end. */
    static long start(Message m, double seconds) {
        long start = MessageValues.millis(m, LapMesg.StartTimeFieldNum);
        long end = MessageValues.millis(m, LapMesg.TimestampFieldNum);
        return start != Sample.NO_TIME || end == Sample.NO_TIME ? start : end - Math.round(seconds * 1000);
    }

    /** Their sum; NaN when no lap states a distance. */
    double metres() {
        return metres > 0 ? metres : Double.NaN;
    }

    /** True when they tell of a time or a way: enough for a ride without any records. */
    boolean ridden() {
        return first != Sample.NO_TIME && (last > first || metres > 0);
    }

    /** A summary of nothing else. */
    Stated stated() {
        Instant start = first == Sample.NO_TIME ? null : Instant.ofEpochMilli(first);
        return new Stated(start, seconds(), timer(), Double.NaN, metres(), Double.NaN, Double.NaN);
    }

    /** The summary, completed by the laps where it says nothing. */
    Stated complete(Stated s) {
        Stated own = stated();
        @Nullable Instant start = s.start() == null ? own.start() : s.start();
        boolean untimed = !(s.elapsedSeconds() > 0) && !(s.timerSeconds() > 0);
        return new Stated(
                start,
                untimed ? own.elapsedSeconds() : s.elapsedSeconds(),
                untimed ? own.timerSeconds() : s.timerSeconds(),
                s.metres(),
                own.lapMetres(),
                s.watts(),
                s.ascentMetres());
    }

    private double seconds() {
        return last > first ? (last - first) / 1000.0 : Double.NaN;
    }

    private double timer() {
        return timer > 0 ? timer : Double.NaN;
    }
}
