package chainage.ridefile.fit;

import chainage.ride.Ride;
import chainage.ride.RideFold;
import chainage.ride.Sample;
import chainage.ridefile.Draft;
import chainage.ridefile.Findings;
import chainage.ridefile.Stated;
import com.garmin.fit.MesgNum;
import com.garmin.fit.RecordMesg;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Hands the sessions of one activity part on, each with its own records. */
final class Sessions {
    private Sessions() {}

    /** Answers the place of the next activity in the file. */
    static int settle(byte[] content, FitParts.Part part, PartMessages messages, int from, Findings findings) {
        List<SessionFacts> sessions = messages.sessions();
        if (sessions.isEmpty()) {
            String built = "no session summary: built from the " + (messages.timed() ? "records" : "laps");
            SessionFacts none = new SessionFacts(unsummed(messages), Sports.Stated.NOTHING, "");
            findings.add(draft(messages, none, messages.fold(), from, List.of(built)));
            return from + 1;
        }
        if (sessions.size() == 1) {
            SessionFacts s = sessions.get(0);
            Stated stated = messages.timed()
                    ? s.stated().withLapMetres(messages.laps().metres())
                    : messages.laps().complete(s.stated());
            findings.add(draft(messages, s.with(stated), messages.fold(), from, List.of()));
            return from + 1;
        }
        // Summaries may stand before or after the records, so the records are dealt out in a second pass.
        Dealer dealer = new Dealer(sessions);
        PartDecoder.run(content, part, dealer);
        for (int i = 0; i < sessions.size(); i++) {
            SessionFacts s = sessions.get(i);
            Stated stated = s.stated().withLapMetres(dealer.laps(i).metres());
            findings.add(draft(messages, s.with(stated), dealer.fold(i), from + i, List.of()));
        }
        return from + sessions.size();
    }

    /**
     * A summary in place of one that is missing. The records say best when it was; laps only speak of the part before
     * the last of them closed.
     */
    private static Stated unsummed(PartMessages messages) {
        if (!messages.timed()) {
            return messages.laps().stated();
        }
        RideFold.Totals t = messages.fold().totals();
        Stated laps = messages.laps().stated();
        double timer = t.movingSeconds() == 0 ? laps.timerSeconds() : Double.NaN;
        double elapsed = timer > 0 ? Math.max(timer, t.elapsedSeconds()) : Double.NaN;
        return new Stated(null, elapsed, timer, Double.NaN, laps.lapMetres(), Double.NaN, Double.NaN);
    }

    private static Draft draft(
            PartMessages messages, SessionFacts session, RideFold fold, int place, List<String> remarks) {
        Ride.Activity activity = session.sport().or(messages.sport()).activity();
        return new Draft(
                place,
                session.stated(),
                fold,
                activity,
                messages.devices(),
                messages.weather(),
                messages.labels(session.profileName()),
                Stream.concat(messages.remarks().stream(), remarks.stream()).toList(),
                0,
                0,
                true,
                salvaged(messages),
                messages.offset());
    }

    private static @Nullable String salvaged(PartMessages messages) {
        String broken = messages.broken();
        if (broken == null) {
            return null;
        }
        return broken + ": kept " + messages.records() + " records";
    }

    /**
     * Gives each record to the session that began last before it. Not to the one whose elapsed time holds it: some
     * devices leave pauses out of that time, and the records after the pause would be lost.
     */
    private static final class Dealer implements Message.Listener {
        /** The last session that begins at a time, by that time in milliseconds. */
        private final TreeMap<Long, Integer> begun = new TreeMap<>();

        private final Map<Integer, RideFold> folds = new HashMap<>();
        private final Map<Integer, RecordReader> readers = new HashMap<>();
        private final Map<Integer, Laps> laps = new HashMap<>();
        private int current;
        private double odometer;

        Dealer(List<SessionFacts> sessions) {
            for (int i = 0; i < sessions.size(); i++) {
                Instant start = sessions.get(i).stated().start();
                if (start != null) {
                    begun.put(start.toEpochMilli(), i);
                }
            }
        }

        RideFold fold(int session) {
            // Where the odometer runs on, the session begins at the reading of the one before.
            return folds.computeIfAbsent(session, i -> new RideFold(odometer));
        }

        Laps laps(int session) {
            return laps.computeIfAbsent(session, i -> new Laps());
        }

        private RecordReader reader(int session) {
            return readers.computeIfAbsent(session, i -> new RecordReader(fold(i)));
        }

        @Override
        public void on(Message m) {
            if (m.kind() == MesgNum.RECORD) {
                deal(m);
            } else if (m.kind() == MesgNum.LAP) {
                long start = Laps.start(m, 0);
                laps(start == Sample.NO_TIME ? current : owner(start)).add(m);
            } else if (m.kind() == MesgNum.EVENT) {
                // Applies from here on, in whichever session that is.
                reader(current).event(m);
            }
        }

        private void deal(Message m) {
            long at = MessageValues.millis(m, RecordMesg.TimestampFieldNum);
            int owner = at == Sample.NO_TIME ? current : owner(at);
            if (owner != current) {
                odometer = fold(current).odometerReading();
                current = owner;
            }
            reader(owner).record(m);
        }

        private int owner(long at) {
            Map.Entry<Long, Integer> last = begun.floorEntry(at);
            return last == null ? 0 : last.getValue();
        }
    }
}
