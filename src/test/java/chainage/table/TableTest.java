package chainage.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.logbook.Days;
import chainage.logbook.Refusal;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TableTest {
    private static final Known KNOWN = new Known(
            Set.of("Amber", "Ochre"),
            Set.of("Dunlin"),
            Set.of("Kettle Block", "hot-wax", "drip-wax"),
            Map.of("treat", Map.of("minutes", true, "cleaning", true), "measure", Map.of("tool", true)));

    private static Table table(String text) throws Refusal {
        return Table.of(text.getBytes(StandardCharsets.UTF_8), TableLines::isData);
    }

    private static TableLines lines(String text) throws Refusal {
        return lines(table(text));
    }

    private static TableLines lines(Table table) throws Refusal {
        return TableLines.of(table, new TableLines.Said(Map.of(), null, Days.Order.UNKNOWN, Map.of()), KNOWN);
    }

    private static String refusal(String text) {
        return assertThrows(Refusal.class, () -> lines(text)).reason();
    }

    // Quoting as RFC 4180 has it; other separators are common practice of spreadsheet programs.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "date,chain,note\n2026-03-01,Amber,\"wet, and \"\"cold\"\"\"\n",
                "date;chain;note\r\n2026-03-01;Amber;wet, and \"cold\"\r\n",
                "date\tchain\tnote\n2026-03-01\tAmber\t\"wet,\nand \"\"cold\"\"\"",
                "date|chain|note\n2026-03-01|Amber|wet, and \"cold\"",
                "sep=;\ndate;chain;note\n2026-03-01;Amber;wet, and \"cold\"\n",
                "My chains\n\ndate,chain,note\n2026-03-01,Amber,\"wet, and \"\"cold\"\"\"\n",
            })
    void cellsAreReadWhateverPartsThem(String text) throws Refusal {
        Table t = table(text);
        assertEquals(List.of("date", "chain", "note"), t.names());
        assertEquals(1, t.rows().size());
        assertEquals(
                List.of("2026-03-01", "Amber", "wet, and \"cold\""),
                t.rows().get(0).cells());
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "windows-1252", "UTF-16"})
    void codesOfSpreadsheetProgramsAreRead(String code) throws Refusal {
        String text = "Tag;Kette;Notiz\n01.03.2026;Amber;geölt – naß\n";
        assertEquals(
                "geölt – naß",
                Table.of(text.getBytes(Charset.forName(code)), TableLines::isData)
                        .rows()
                        .get(0)
                        .cell(2));
        assertEquals(List.of("Tag", "Kette", "Notiz"), table("\ufeff" + text).names());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        a year first       | 2026-03-01        | 2026-03-01
        full stops         | 1.3.2026          | 2026-03-01
        a name of a month  | 1 Mar 2026        | 2026-03-01
        another            | March 1, 2026     | 2026-03-01
        hyphens            | 1-Mar-26          | 2026-03-01
        a time             | 2026-03-01 19:30  | 2026-03-01 19:30
        as a standard says | 2026-03-01T19:30:00 | 2026-03-01 19:30
        half a day         | 1.3.2026 7:05 PM  | 2026-03-01 19:05
        noon               | 1.3.2026 12:05 pm | 2026-03-01 12:05
        after midnight     | 1.3.2026 12:05 am | 2026-03-01 00:05
        midnight says none | 1.3.2026 0:00:00  | 2026-03-01
        one reading        | 3/25/2026         | 2026-03-25
        """)
    void datesAreReadInTheUsualOrders(String title, String date, String expected) throws Refusal {
        assertEquals(
                List.of(expected + " treat Amber \"Kettle Block\""),
                lines("when,what,chain,product\n\"" + date + "\",waxed,Amber,Kettle Block\n")
                        .lines());
    }

    @Test
    void dateOfTwoReadingsIsRefusedWithBoth() throws Refusal {
        TableLines made =
                lines("when,what,chain,product\n3/4/2026,waxed,Amber,hot-wax\n5/5/2026,waxed,Amber,hot-wax\n");
        assertEquals(List.of("2026-05-05 treat Amber hot-wax"), made.lines());
        assertEquals(2, made.refused().get(0).number());
        String why = made.refused().get(0).reason();
        assertTrue(why.contains("2026-04-03 or 2026-03-04") && why.contains("--dates day-first"), why);
        assertTrue(made.text("t.csv").contains("# line 2 of the table, left out: 3/4/2026 | waxed | Amber | hot-wax"));
    }

    @Test
    void datesOfOneColumnAreReadInTheOrderThatOneOfThemTells() throws Refusal {
        TableLines made =
                lines("when,what,chain,product\n3/4/2026,waxed,Amber,hot-wax\n25/4/2026,waxed,Amber,hot-wax\n");
        assertEquals(List.of("2026-04-03 treat Amber hot-wax", "2026-04-25 treat Amber hot-wax"), made.lines());
        assertTrue(
                made.mapping().toString().contains("the day comes first"),
                made.mapping().toString());
        // Two orders in one column: then none is told.
        assertEquals(
                1,
                lines("when,what,chain\n3/4/2026,removed,Amber\n25/4/2026,removed,Amber\n4/25/2026,removed,Amber\n")
                        .refused()
                        .size());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        a treatment        | waxed;Amber;;Kettle Block;;         | treat Amber "Kettle Block"
        by its method      | hot wax;Amber;;;;                   | treat Amber hot-wax
        two in one pot     | rewaxed;Amber, Ochre;;Kettle Block;;| treat Amber Ochre "Kettle Block"
        what is implied    | ;Amber;;Kettle Block;;              | treat Amber "Kettle Block"
        a reading          | measured;Amber;;;0,31 %;            | measure Amber 0,31%
        places             | measured;Amber;;;0.31% 0.28 %;      | measure Amber 0.31% 0.28%
        a length           | measured;Amber;;;305,9 mm;          | measure Amber --length 305,9mm
        implied too        | ;Amber;;;0,31 %;                    | measure Amber 0,31%
        on a bike          | fitted;Amber;Dunlin;;;              | install Amber Dunlin --swap
        off it             | taken off;Amber;Dunlin;;;           | remove Amber  # bike: Dunlin
        a noise            | Squeaks!;Amber;;;;at the café       | remark Amber noisy "at the café"
        words alone        | ;Amber;;;;odd                       | remark Amber note odd
        a note beside      | waxed;Amber;;hot-wax;;in the shed   | treat Amber hot-wax  # in the shed
        what is no word    | chain waxed, all fine;Amber;;hot-wax;; | refused
        no word at all     | polished;Amber;;;;                  | refused
        nothing done       | ;Amber;;;;                          | refused
        no product         | waxed;Amber;;;;                     | refused
        no value           | measured;Amber;;;;                  | refused
        """)
    void rowBecomesTheCommandThatStatesIt(String title, String cells, String expected) throws Refusal {
        TableLines made = lines("date;what;chain;bike;product;value;note\n2026-03-01;" + cells + "\n");
        assertEquals(
                expected.equals("refused") ? List.of() : List.of("2026-03-01 " + expected),
                made.lines(),
                made.refused().toString());
        assertEquals(expected.equals("refused") ? 1 : 0, made.refused().size());
    }

    @Test
    void columnsWithoutHeadingsAreFoundByWhatStandsInThem() throws Refusal {
        TableLines made = lines("""
                Amber,waxed,Kettle Block,2026-03-01,
                Amber,measured,,2026-03-08,0.02%
                Ochre,waxed,Kettle Block,2026-03-09,
                """);
        assertEquals(
                List.of(
                        "2026-03-01 treat Amber \"Kettle Block\"",
                        "2026-03-08 measure Amber 0.02%",
                        "2026-03-09 treat Ochre \"Kettle Block\""),
                made.lines());
    }

    @Test
    void namesThatNobodyKnowsAreFoundAndAdded() throws Refusal {
        Known nothing = new Known(Set.of(), Set.of(), Set.of("hot-wax"), KNOWN.options());
        TableLines made =
                TableLines.of(table("""
                        2026-03-01,fitted,Slate,Heron,,
                        2026-03-01,waxed,Slate,,Tallow Nine,first time in the new pot
                        2026-03-09,waxed,Slate,,Tallow Nine,
                        2026-04-09,waxed,Thyme,,Tallow Nine,smelt of burnt toast all week
                        2026-04-19,fitted,Thyme,Heron,,
                        """), new TableLines.Said(Map.of(), null, Days.Order.UNKNOWN, Map.of()), nothing);
        assertEquals(
                List.of(
                        "2026-03-01 bike add Heron",
                        "2026-03-01 chain add Slate",
                        "2026-03-01 chain add Thyme",
                        "2026-03-01 product add \"Tallow Nine\" --method METHOD",
                        "2026-03-01 install Slate Heron --swap"),
                made.lines().subList(0, 5));
        assertTrue(made.lines().contains("2026-03-01 treat Slate \"Tallow Nine\"  # first time in the new pot"));
    }

    @Test
    void headingsOfOptionsAreOptionsAndTheRestIsKeptAsANote() throws Refusal {
        assertEquals(
                List.of(
                        "2026-03-01 treat Amber hot-wax --minutes 20 --cleaning deep  # km: 1204",
                        "2026-03-02 measure Amber 0.1%  # minutes: 5"),
                lines("""
                        date,what,chain,product,value,km,Minutes,Cleaning
                        2026-03-01,waxed,Amber,hot-wax,,1204,20,deep
                        2026-03-02,measured,Amber,,0.1%,,5,
                        """).lines());
    }

    @Test
    void twoColumnsOfOneNameAreToldApartByNumber() throws Refusal {
        Table t = table("date,chain,chain\n2026-03-01,Amber,x\n");
        assertEquals(2, t.column("3"));
        String why = assertThrows(Refusal.class, () -> t.column("Chain")).reason();
        assertTrue(why.contains("give the number of one: 2 or 3"), why);
        String none = assertThrows(Refusal.class, () -> t.column("9")).reason();
        assertTrue(none.contains("from 1 to 3"), none);
        assertEquals(List.of("2026-03-01 treat Amber hot-wax"), lines("""
                date,chain,chain,what,product
                2026-03-01,Amber,,waxed,hot-wax
                """).lines());
    }

    @Test
    void whatIsNoTableOfOursSaysWhatToDo() {
        assertTrue(refusal("PK\3\4....mimetypeapplication/vnd.oasis.opendocument.spreadsheet")
                .contains("ODS"));
        assertTrue(refusal("PK\3\4.....[Content_Types].xml").contains("XLSX"));
        assertTrue(refusal("PK\3\4.....[Content_Types].xml").contains("save a copy as text"));
        assertTrue(refusal("PK\3\4.....rides/1.fit").contains("archive"));
        assertTrue(refusal("date,chain\n2026-03-01,Am\0ber\n").contains("no text holds"));
        assertTrue(refusal("date,chain\n2026-03-01,Am\u001b[31mber\n").contains("no text holds"));
        assertTrue(refusal("just words\nand more\n").contains("no two columns"));
        assertTrue(refusal("").contains("no two columns"));
        assertTrue(refusal("a,b\n1,2\n").contains("--date-column"));
        assertTrue(refusal("date,km\n2026-03-01,2\n").contains("--chain-column"));
        assertTrue(refusal("date,chain\n2026-03-01,\"Amber\n" + "2026-03-02,Amber\n".repeat(400))
                .contains("quotation mark"));
        assertTrue(refusal("x".repeat(Table.LARGEST + 1)).contains("larger than 8 MB"));
        assertTrue(refusal("a,b\n".repeat(100_001)).contains("more than 100000 rows"));
    }

    /** Whatever stands in it, it is lines, or a refusal. */
    @Test
    void nonsenseIsRefusedAndNothingElse() {
        String letters = ",;\t|\"\n\r 0123456789./-:%AmberwaxdinstlKo#\\'=é\u00a0\u2028";
        for (int seed = 0; seed < 3000; seed++) {
            Random random = new Random(seed);
            StringBuilder text = new StringBuilder(random.nextBoolean() ? "date,what,chain,product\n" : "");
            int length = random.nextInt(300);
            for (int i = 0; i < length; i++) {
                text.append(
                        random.nextInt(12) == 0
                                ? List.of("2026-03-01", "Amber", "waxed", "hot-wax", "fitted")
                                        .get(random.nextInt(5))
                                : letters.charAt(random.nextInt(letters.length())));
            }
            try {
                for (String line : lines(text.toString()).text("t").lines().toList()) {
                    assertTrue(line.length() < 5000 && line.chars().noneMatch(c -> c < ' '), "seed " + seed);
                }
            } catch (Refusal e) {
                assertTrue(!e.reason().isEmpty(), "seed " + seed);
            }
        }
    }
}
