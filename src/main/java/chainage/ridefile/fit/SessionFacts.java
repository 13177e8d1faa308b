package chainage.ridefile.fit;

import chainage.ridefile.Stated;
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

    static SessionFacts of(Message m) {
        double elapsed = m.number(SessionMesg.TotalElapsedTimeFieldNum);
        double timer = m.number(SessionMesg.TotalTimerTimeFieldNum);
        Stated stated = new Stated(
                start(m, elapsed > 0 ? elapsed : timer),
                elapsed,
                timer,
                m.number(SessionMesg.TotalDistanceFieldNum),
                Double.NaN,
                m.number(SessionMesg.AvgPowerFieldNum),
                m.number(SessionMesg.TotalAscentFieldNum));
        return new SessionFacts(
                stated,
                Sports.stated(m, SessionMesg.SportFieldNum, SessionMesg.SubSportFieldNum),
                m.text(SessionMesg.SportProfileNameFieldNum));
    }

    /** The start; a session without one is dated back from its own timestamp, which is its end. */
    private static @Nullable Instant start(Message m, double elapsed) {
        Instant start = MessageValues.instant(m, SessionMesg.StartTimeFieldNum);
        Instant end = MessageValues.instant(m, SessionMesg.TimestampFieldNum);
        if (start != null || end == null || !(elapsed > 0)) {
            return start;
        }
        return end.minusMillis(Math.round(elapsed * 1000));
    }
}
