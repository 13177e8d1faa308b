package chainage.ridefile.fit;

import chainage.ride.Ride.Activity;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.SportWords;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import org.jspecify.annotations.Nullable;

/** Sport and sub-sport of the FIT profile, and which of them are cycling. */
final class Sports {
    private Sports() {}

    /**
     * A sport as a message states it.
     *
     * @param sport null when absent or unknown to the profile
     * @param subSport null when absent or unknown to the profile
     */
    record Stated(@Nullable Sport sport, @Nullable SubSport subSport) {
        static final Stated NOTHING = new Stated(null, null);

        /** This, or the other where this says nothing. */
        Stated or(Stated other) {
            return sport == null ? other : this;
        }

        Activity activity() {
            return new Activity(
                    MessageValues.word(sport),
                    MessageValues.word(subSport),
                    kind(),
                    SportWords.indoor(MessageValues.word(subSport)));
        }

        private Kind kind() {
            if (sport == null || sport == Sport.GENERIC) {
                return Kind.UNSTATED;
            }
            return sport == Sport.CYCLING || sport == Sport.E_BIKING ? Kind.CYCLING : Kind.OTHER;
        }
    }

    static Stated stated(Message m, int sportField, int subSportField) {
        Sport sport = Sport.getByValue((short) m.whole(sportField));
        SubSport subSport = SubSport.getByValue((short) m.whole(subSportField));
        return new Stated(sport == Sport.INVALID ? null : sport, subSport == SubSport.INVALID ? null : subSport);
    }
}
