package chainage.ride;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.ride.Ride.Activity;
import chainage.ride.Ride.Activity.Kind;
import com.garmin.fit.SubSport;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SportWordsTest {
    private static boolean is(SubSport s, SubSport... of) {
        return Set.of(of).contains(s);
    }

    /** Every sub-sport of the FIT profile by its own name: which are of loose ground, indoors, or have a motor's help. */
    @Test
    void theSubSportsOfFit() {
        Set<String> wrong = new TreeSet<>();
        for (SubSport s : SubSport.values()) {
            String word = s.name().toLowerCase(Locale.ROOT);
            Activity a = new Activity("cycling", word, Kind.CYCLING, SportWords.indoor(word));
            boolean loose = is(
                    s,
                    SubSport.GRAVEL_CYCLING,
                    SubSport.MOUNTAIN,
                    SubSport.CYCLOCROSS,
                    SubSport.DOWNHILL,
                    SubSport.E_BIKE_MOUNTAIN,
                    SubSport.MIXED_SURFACE,
                    SubSport.BMX);
            boolean foot = is(s, SubSport.TRAIL);
            if (a.offRoad() != (loose || foot)) {
                wrong.add(word + " off road " + a.offRoad());
            }
            boolean motor = is(s, SubSport.E_BIKE_MOUNTAIN, SubSport.E_BIKE_FITNESS);
            if (a.assisted() != motor) {
                wrong.add(word + " assisted " + a.assisted());
            }
            boolean indoor = word.startsWith("indoor_")
                    || is(
                            s,
                            SubSport.VIRTUAL_ACTIVITY,
                            SubSport.SPIN,
                            SubSport.TREADMILL,
                            SubSport.ELLIPTICAL,
                            SubSport.STAIR_CLIMBING);
            if (a.indoor() != indoor) {
                wrong.add(word + " indoor " + a.indoor());
            }
        }
        assertEquals(Set.of(), wrong);
    }

    /** The same ride by the words of any format. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # stated              | kind     | off road | indoor | motor
            mountain              | UNSTATED | true     | false  | false
            Mountain Biking       | CYCLING  | true     | false  | false
            mountain_biking       | CYCLING  | true     | false  | false
            MountainBike          | CYCLING  | true     | false  | false
            MTB2                  | CYCLING  | true     | false  | false
            mountainbiketour      | CYCLING  | true     | false  | false
            Gravel-Cycling        | CYCLING  | true     | false  | false
            gravelbike            | CYCLING  | true     | false  | false
            cyclo-cross           | CYCLING  | true     | false  | false
            Track Cycling         | CYCLING  | false    | false  | false
            track_cycling         | CYCLING  | false    | false  | false
            indoor_cycling        | CYCLING  | false    | true   | false
            virtual cycling       | CYCLING  | false    | true   | false
            virtualcycling        | CYCLING  | false    | true   | false
            e-bike                | CYCLING  | false    | false  | true
            E_Bike_Mountain       | CYCLING  | true     | false  | true
            EBiking               | CYCLING  | false    | false  | true
            Pedelec               | CYCLING  | false    | false  | true
            recumbent             | CYCLING  | false    | false  | false
            Tandem                | CYCLING  | false    | false  | false
            hand cycling          | CYCLING  | false    | false  | false
            Cargo bike            | CYCLING  | false    | false  | false
            Lastenrad             | CYCLING  | false    | false  | false
            VTT                   | CYCLING  | true     | false  | false
            VAE                   | CYCLING  | false    | false  | true
            BTT                   | CYCLING  | true     | false  | false
            Veldrijden            | CYCLING  | true     | false  | false
            Terrengsykling        | CYCLING  | true     | false  | false
            Maastopyöräily        | CYCLING  | true     | false  | false
            Горный велосипед      | CYCLING  | true     | false  | false
            Trail running         | OTHER    | true     | false  | false
            Mountaineering        | OTHER    | false    | false  | false
            Electric scooter      | OTHER    | false    | false  | true
            Carriage              | UNSTATED | false    | false  | false
            """)
    void theTable(String stated, Kind kind, boolean offRoad, boolean indoor, boolean assisted) {
        Activity a = SportWords.activity(stated);
        assertEquals(kind, a.kind(), "kind");
        assertEquals(offRoad, a.offRoad(), "off road");
        assertEquals(indoor, a.indoor(), "indoor");
        assertEquals(assisted, a.assisted(), "assisted");
        // What is kept is read to the same end.
        assertEquals(a, SportWords.activity(a.sport()));
    }
}
