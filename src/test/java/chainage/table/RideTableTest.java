package chainage.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Event;
import chainage.logbook.Refusal;
import chainage.table.RideTable.Holds;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RideTableTest {
    private static final RideTable.Files FILES = new RideTable.Files(Map.of(
            "/activities/2026-03-01.fit.gz", List.of("aa"),
            "/all.zip!/home/7.gpx", List.of("bb"),
            "/all.zip!/away/7.gpx", List.of("cc"),
            "/activities/two.fit", List.of("dd", "ee")));

    private static RideTable read(String text, Map<Holds, String> said) throws Refusal {
        return RideTable.of(
                Table.of(text.getBytes(StandardCharsets.UTF_8), FILES::names),
                said,
                FILES,
                name -> name.equalsIgnoreCase("dunlin") ? "Dunlin" : null);
    }

    private static Map<String, Event.Told> byRide(RideTable table) {
        return table.rows().stream().collect(Collectors.toMap(Event.Told::ride, r -> r));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            as it is             | activities/2026-03-01.fit.gz    | aa
            packed since         | activities/2026-03-01.fit       | aa
            unpacked since       | activities/two.fit.gz           | dd ee
            without its ending   | 2026-03-01                      | aa
            another case         | ACTIVITIES\\2026-03-01.FIT      | aa
            from here            | ./activities/2026-03-01.fit.gz  | aa
            in an archive        | away/7.gpx                      | cc
            a file of two rides  | two.fit                         | dd ee
            another folder       | elsewhere/2026-03-01.fit.gz     | absent
            part of a name       | 1.fit                           | absent
            two of that name     | 7.gpx                           | doubtful
            """)
    void rowIsOfTheFileThatItNames(String title, String name, String expected) throws Refusal {
        RideTable t = read("file,title\n\"" + name + "\",Muddy\n", Map.of(Holds.FILE, "file"));
        assertEquals(
                expected,
                !t.absent().isEmpty()
                        ? "absent"
                        : !t.doubtful().isEmpty()
                                ? "doubtful"
                                : t.rows().stream().map(Event.Told::ride).collect(Collectors.joining(" ")));
    }

    @Test
    void columnsAreFoundByTheFilesAndTheirHeadings() throws Refusal {
        RideTable t = read("""
                id;Bicycle;Titel;path;note
                1;DUNLIN;Wet lanes;activities/2026-03-01.fit.gz;
                2;Heron;;two.fit;dry
                """, Map.of());
        assertEquals(List.of("file=path", "title=Titel", "notes=note", "bike=Bicycle"), t.columns());
        assertEquals(
                new Event.Told("aa", "Wet lanes", null, "Dunlin", "DUNLIN"),
                byRide(t).get("aa"));
        assertEquals(new Event.Told("ee", null, "dry", null, "Heron"), byRide(t).get("ee"));
        assertEquals(Map.of("Heron", 1), t.strangers());
    }

    @Test
    void columnsWithoutHeadingsAreNumbered() throws Refusal {
        RideTable t = read("two.fit,Wet lanes,Dunlin\n2026-03-01.fit,Dry,Dunlin\n", Map.of());
        assertEquals(List.of("file=1", "bike=3"), t.columns());
        assertEquals(3, t.rows().size());
        assertEquals(
                List.of("Wet lanes", "Wet lanes"),
                read("two.fit,Wet lanes,Dunlin\n", Map.of(Holds.TITLE, "2")).rows().stream()
                        .map(Event.Told::title)
                        .toList());
    }

    @Test
    void whatIsNotFoundIsSaid() {
        assertTrue(assertThrows(Refusal.class, () -> read("a,b\n1,2\n", Map.of()))
                .reason()
                .contains("--file-column"));
        assertTrue(assertThrows(Refusal.class, () -> read("file,km\ntwo.fit,2\n", Map.of()))
                .reason()
                .contains("--title-column"));
    }

    @Test
    void onlyWhatIsOtherwiseIsStatedAnew() throws Refusal {
        RideTable first = read("file,title,bike\ntwo.fit,Wet,Dunlin\n2026-03-01.fit,Dry,Dunlin\n", Map.of());
        assertEquals(3, first.changed(Map.of(), false).rows().size());
        assertEquals(List.of(), first.changed(byRide(first), false).rows());
        RideTable second = read("file,title,bike\n2026-03-01.fit,Damp,Dunlin\ntwo.fit,Wet,Dunlin\n", Map.of());
        assertEquals(
                List.of(new Event.Told("aa", "Damp", null, "Dunlin", "Dunlin")),
                second.changed(byRide(first), false).rows());
    }

    @Test
    void moreThanAThirdGoesOnlyWhereThatIsMeant() throws Refusal {
        RideTable first = read("file,title\ntwo.fit,Wet\n2026-03-01.fit,Dry\naway/7.gpx,Dry\n", Map.of());
        RideTable less = read("file,title\ntwo.fit,Wet\n2026-03-01.fit,Dry\n", Map.of());
        RideTable none = read("file,title\n", Map.of(Holds.FILE, "file", Holds.TITLE, "title"));
        assertEquals(
                List.of(new Event.Told("cc", null, null, null, null)),
                less.changed(byRide(first), false).rows());
        assertEquals(new RideTable.Changes(List.of(), 4), none.changed(byRide(first), false));
        assertEquals(4, none.changed(byRide(first), true).rows().size());
    }
}
