package chainage.demo;

import java.nio.charset.StandardCharsets;

/** The table that lay beside the rides when they were fetched in bulk: what the rider wrote of some of them. */
final class RidesTable {
    static final String FILE = "rides.csv";

    private RidesTable() {}

    /** The first one's bike is named nowhere else. */
    static byte[] file() {
        return """
                Activity,Title,Bike,Notes
                %s,After work,Natterjack,"phone only, and I forgot to put the bike in its name"
                old-computer/2026-04-06-1000-natterjack.tcx,Muddy loop,Natterjack,mud up to the hubs
                computer/2026-04-12-1010.fit,Gates and fields,Natterjack,drizzle all the way home
                computer/2026-08-30-0900.fit,Last of the summer,Dunlin,
                """.formatted("phone/" + DemoSeason.stamp(Truth.UNNAMED) + ".gpx")
                .getBytes(StandardCharsets.UTF_8);
    }
}
