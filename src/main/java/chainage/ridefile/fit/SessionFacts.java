package chainage.ridefile.fit;

import chainage.ridefile.Stated;
import com.garmin.fit.Mesg;
import com.garmin.fit.SessionMesg;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What a session message states.
 *
 * @param stated its totals
 * @param sport sport and sub-sport
 * @param profileName the device's name for the sport profile; empty when not given
 */
record SessionFacts(Stated stated, Sports.Stated sport, String profileName) {
    SessionFacts with(Stated other) {
        return new SessionFacts(other, sport, profileName);
    }

    static SessionFacts of(Mesg m) {
        double elapsed = Fields.number(m, SessionMesg.TotalElapsedTimeFieldNum);
        double timer = Fields.number(m, SessionMesg.TotalTimerTimeFieldNum);
        Stated stated = new Stated(
                start(m, elapsed > 0 ? elapsed : timer),
                elapsed,
                timer,
                Fields.number(m, SessionMesg.TotalDistanceFieldNum),
                Double.NaN,
                Fields.number(m, SessionMesg.AvgPowerFieldNum),
                Fields.number(m, SessionMesg.TotalAscentFieldNum));
        return new SessionFacts(
                stated,
                Sports.stated(m, SessionMesg.SportFieldNum, SessionMesg.SubSportFieldNum),
                Fields.text(m, SessionMesg.SportProfileNameFieldNum));
    }

    /** The start; a session without one is dated back from its own timestamp, which is its end. */
    private static @Nullable Instant start(Mesg m, double elapsed) {
        Instant start = Fields.instant(m, SessionMesg.StartTimeFieldNum);
        Instant end = Fields.instant(m, SessionMesg.TimestampFieldNum);
        if (start != null || end == null || !(elapsed > 0)) {
            return start;
        }
        return end.minusMillis(Math.round(elapsed * 1000));
    }
}
