package chainage.drivetrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DrivetrainTest {
    private static final Drivetrain DUNLIN =
            new Drivetrain(List.of(34, 50), List.of(11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30), 2.105, List.of());

    /** Developments worked out by hand: circumference × ring / cog. */
    @ParameterizedTest(name = "{0} m is {1}, {2}")
    @CsvSource({
        // 50x11 = 9.568 m, nothing else near
        "9.625, 50x11, NEAREST",
        // 34x30 = 2.386 m
        "2.375, 34x30, NEAREST",
        // 50x24 = 4.385 m runs straighter on this bike than 34x17 = 4.210 m, which lies outside the band
        "4.375, 50x24, NEAREST",
        // 50x21 = 5.012 m and 34x14 = 5.112 m share a band: the big ring lies outside, as do small cogs
        "5.125, 34x14, STRAIGHTEST",
        // between 50x11 = 9.568 m and the tolerance above it
        "10.125, 50x11, NEAREST",
        // spinning faster or slower than any gear of the bike
        "11.125, , NONE",
        "1.125, , NONE",
        "NaN, , NONE",
    })
    void gearsByDevelopment(double development, String gear, Drivetrain.How how) {
        Drivetrain.Match match = DUNLIN.match(development);
        assertEquals(how, match.how());
        assertEquals(gear, match.gear() == null ? null : String.valueOf(match.gear()));
    }

    /** By hand: 2.105 m times ring over cog. */
    @ParameterizedTest
    @CsvSource({
        "7.4, 46x13", // 7.448; 46x14 has 6.916
        "2.0, 30x28", // 2.255, the least there is
        "9.9, 46x11", // 8.803, the most
        "4.5, 30x14", // 4.511; 46x21 has 4.611
    })
    void theGearNearestToADevelopment(double development, String gear) {
        Drivetrain gravel =
                new Drivetrain(List.of(30, 46), List.of(11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28), 2.105, List.of());
        assertEquals(gear, gravel.nearest(development, 50).toString());
    }

    /** Without its sprockets: the usual ring, and cogs from 11 to 34. */
    @ParameterizedTest
    @CsvSource({"6.19, 50x17", "20, 50x11", "1, 50x34"})
    void aBikeWhoseGearsAreNotKnown(double development, String gear) {
        assertEquals(
                gear,
                new Drivetrain(List.of(), List.of(), 2.105, List.of())
                        .nearest(development, 50)
                        .toString());
    }

    @Test
    void ofTwoGearsInOneBandTheStraighterChainIsTaken() {
        // 30x15 and 40x20 are the same ratio; the small ring lies inside like the big cog.
        Drivetrain twice = new Drivetrain(List.of(30, 40), List.of(15, 20), 2.1, List.of());
        assertEquals(
                new Drivetrain.Match(new Gear(40, 20), Drivetrain.How.STRAIGHTEST).how(),
                twice.match(4.125).how());
        double inside = twice.chainLine(new Gear(30, 20));
        double across = twice.chainLine(new Gear(40, 20));
        assertEquals(true, inside < across, inside + " mm against " + across + " mm");
    }

    @Test
    void aBikeWithoutGearsEnteredMatchesNothing() {
        assertNull(Drivetrain.of(null, 2.1).match(5.125).gear());
    }
}
