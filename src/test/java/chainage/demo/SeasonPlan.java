package chainage.demo;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** The season, ride by ride. */
final class SeasonPlan {
    /*
     * The distances are chosen so that, with the default factors, treatments end where logbook.txt says that they did
     * (noisy at about 300 dry kilometres of hot wax, and so on), and so that on the last day the four chains stand
     * apart: Moss at 1.06 of its oil's likely life, Amber off the bike at 0.90, Ochre at 0.18, Flint untouched.
     */
    private static final String TABLE = """
            2026-03-01 09:10 | Dunlin     |  42 | FIT | PLAIN  | ROAD      | mostly_cloudy      |
            2026-03-03 17:20 | Dunlin     |  28 | TCX | GZ     | ROAD      | none               | Evening spin
            2026-03-07 08:45 | Natterjack |  30 | GPX | PLAIN  | GRAVEL    | none               | First tracks of the year
            2026-03-08 09:00 | Dunlin     |  55 | FIT | PLAIN  | ROAD      | rain               |
            2026-03-11 17:30 | Dunlin     |  25 | FIT | PLAIN  | TRAINER   | none               |
            2026-03-14 09:20 | Dunlin     |  60 | TCX | GZ     | ROAD      | none               | Long loop, dry despite the forecast
            2026-03-15 10:00 | Natterjack |  26 | FIT | PLAIN  | GRAVEL    | rain               |
            2026-03-17 17:30 | Natterjack |   9 | FIT | GZ     | ROAD      | snow               |
            2026-03-21 09:00 | Dunlin     |  64 | FIT | PLAIN  | ROAD      | cloudy             |
            2026-03-22 09:30 | Dunlin     |  48 | FIT | PLAIN  | ROAD      | forecast           |
            2026-03-25 17:40 | Natterjack |  22 | GPX | PLAIN  | GRAVEL    | none               | After work
            2026-03-28 09:00 | Natterjack |  34 | FIT | PLAIN  | GRAVEL    | partly_cloudy      |
            2026-03-29 08:50 | Dunlin     |  70 | FIT | PLAIN  | ROAD      | clear              |
            2026-04-01 17:45 | Dunlin     |  30 | TCX | PLAIN  | ROAD      | none               | Evening spin
            2026-04-04 09:00 | Dunlin     |  66 | FIT | GZ     | ROAD      | partly_cloudy      |
            2026-04-06 10:00 | Natterjack |  28 | TCX | PLAIN  | GRAVEL    | none               | Muddy loop
            2026-04-09 17:50 | Dunlin     |  33 | FIT | PLAIN  | ROAD      | clear              |
            2026-04-11 09:00 | Dunlin     |  72 | TCX | GZ     | ROAD      | none               | Coast and back
            2026-04-12 10:10 | Natterjack |  36 | FIT | PLAIN  | GRAVEL    | light_rain         |
            2026-04-18 08:40 | Dunlin     |  88 | FIT | PLAIN  | ROAD      | mostly_cloudy      |
            2026-04-19 09:30 | Natterjack |  31 | GPX | PLAIN  | GRAVEL    | none               | Mud and puddles again
            2026-04-22 18:00 | Dunlin     |  32 | GPX | PLAIN  | ROAD      | none               | Forgot the computer, phone only
            2026-04-25 08:30 | Dunlin     |  95 | FIT | PLAIN  | ROAD      | partly_cloudy      |
            2026-04-26 10:00 | Dunlin     |  40 | FIT | PLAIN  | ROAD      | clear              |
            2026-05-02 08:30 | Dunlin     |  76 | FIT | PLAIN  | ROAD      | heavy_rain         |
            2026-05-09 08:00 | Dunlin     | 110 | FIT | PLAIN  | ROAD      | clear              |
            2026-05-10 09:30 | Natterjack |  38 | TCX | GZ     | GRAVEL    | none               | Ridge track
            2026-05-13 18:15 | Dunlin     |  38 | TCX | PLAIN  | ROAD      | none               | Evening spin
            2026-05-16 08:00 | Dunlin     |  84 | FIT | PLAIN  | ROAD      | partly_cloudy      |
            2026-05-20 18:20 | Natterjack |  27 | FIT | PLAIN  | GRAVEL    | clear              |
            2026-05-23 07:45 | Dunlin     | 125 | FIT | PLAIN  | ROAD      | mostly_cloudy      |
            2026-05-24 09:40 | Natterjack |  42 | GPX | GZ     | GRAVEL    | none               | Dusty ridge
            2026-05-27 18:20 | Dunlin     |  34 | TCX | GZ     | ROAD      | none               | Evening spin
            2026-05-30 07:50 | Dunlin     |  92 | FIT | PLAIN  | ROAD      | forecast           |
            2026-06-06 07:30 | Dunlin     |  98 | FIT | PLAIN  | ROAD      | clear              |
            2026-06-07 10:00 | Natterjack |  33 | FIT | PLAIN  | GRAVEL    | rain               |
            2026-06-10 18:30 | Dunlin     |  30 | FIT | PLAIN  | SIMULATED | none               |
            2026-06-13 08:00 | Dunlin     |  64 | FIT | ZIP    | ROAD      | clear              |
            2026-06-14 08:00 | Dunlin     |  78 | FIT | ZIP_GZ | ROAD      | partly_cloudy      |
            2026-06-15 09:00 | Natterjack |  35 | GPX | ZIP    | GRAVEL    | none               | Round the lagoon
            2026-06-17 08:30 | Dunlin     |  52 | TCX | ZIP    | ROAD      | none               | Last day of the holiday
            2026-06-20 07:30 | Dunlin     | 105 | FIT | PLAIN  | ROAD      | clear              |
            2026-06-27 07:30 | Dunlin     | 134 | FIT | PLAIN  | ROAD      | partly_cloudy      |
            2026-06-28 09:45 | Natterjack |  40 | GPX | PLAIN  | GRAVEL    | none               | Ford was deep
            2026-07-01 18:30 | Dunlin     |  39 | TCX | PLAIN  | ROAD      | none               | Evening spin
            2026-07-04 07:20 | Dunlin     | 118 | FIT | PLAIN  | ROAD      | clear              |
            2026-07-08 18:30 | Dunlin     |  41 | FIT | PLAIN  | ROAD      | mostly_cloudy      |
            2026-07-11 07:20 | Dunlin     | 102 | FIT | PLAIN  | ROAD      | clear>heavy_rain   |
            2026-07-12 09:30 | Natterjack |  37 | FIT | PLAIN  | GRAVEL    | partly_cloudy      |
            2026-07-15 18:40 | Dunlin     |  40 | TCX | GZ     | ROAD      | none               | Evening spin
            2026-07-18 07:30 | Dunlin     |  86 | FIT | PLAIN  | ROAD      | clear              |
            2026-07-19 09:40 | Natterjack |  44 | TCX | GZ     | GRAVEL    | none               | Ridge track
            2026-07-22 18:40 | Dunlin     |  42 | GPX | GZ     | ROAD      | none               | Phone only
            2026-07-25 07:15 | Dunlin     | 138 | FIT | PLAIN  | ROAD      | clear              |
            2026-07-26 09:30 | Natterjack |  45 | FIT | PLAIN  | GRAVEL    | clear              |
            2026-07-29 18:30 | Dunlin     |  43 | FIT | PLAIN  | ROAD      | partly_cloudy      |
            2026-08-01 07:30 | Dunlin     | 108 | FIT | PLAIN  | ROAD      | clear              |
            2026-08-02 09:30 | Natterjack |  39 | GPX | PLAIN  | GRAVEL    | none               | Ridge track
            2026-08-05 18:30 | Natterjack |  32 | FIT | PLAIN  | GRAVEL    | clear              |
            2026-08-08 08:00 | Natterjack |  41 | FIT | GZ     | GRAVEL    | clear              |
            2026-08-15 08:00 | Natterjack |  36 | FIT | PLAIN  | GRAVEL    | partly_cloudy      |
            2026-08-16 09:00 | Natterjack |  40 | FIT | PLAIN  | GRAVEL    | clear              |
            2026-08-22 07:45 | Dunlin     |  82 | TCX | GZ     | ROAD      | none               | Club loop
            2026-08-23 09:30 | Natterjack |  37 | FIT | PLAIN  | GRAVEL    | mostly_cloudy      |
            2026-08-29 08:15 | Dunlin     |  38 | FIT | PLAIN  | ROAD      | clear              |
            2026-08-29 15:00 | Dunlin     |  24 | FIT | PLAIN  | ROAD      | clear              |
            2026-08-30 09:00 | Dunlin     |  31 | FIT | PLAIN  | ROAD      | partly_cloudy      |
            """;

    private SeasonPlan() {}

    /** Every ride in its order. The multisport day, twins, the run and the odd files are {@link DemoSeason}'s. */
    static List<Outing> outings() {
        return TABLE.lines().map(SeasonPlan::outing).toList();
    }

    private static Outing outing(String line) {
        List<String> cells = Stream.of(line.split("\\|", -1)).map(String::strip).toList();
        return new Outing(
                Instant.parse(cells.get(0).replace(' ', 'T') + ":00Z"),
                DemoBike.named(cells.get(1)),
                Double.parseDouble(cells.get(2)),
                Outing.Form.valueOf(cells.get(3)),
                Outing.Packing.valueOf(cells.get(4)),
                Outing.Surface.valueOf(cells.get(5)),
                cells.get(6).toLowerCase(Locale.ROOT),
                cells.get(7));
    }
}
