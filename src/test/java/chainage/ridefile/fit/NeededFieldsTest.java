package chainage.ridefile.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import com.garmin.fit.Factory;
import com.garmin.fit.Field;
import com.garmin.fit.Fit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class NeededFieldsTest {
    /** Every number in the list against the SDK's own profile; scale and offset by what it makes of raw numbers. */
    @Test
    void everyFieldIsAsTheSdksProfileHasIt() {
        int compared = 0;
        for (Map.Entry<Integer, NeededFields> message : NeededFields.all().entrySet()) {
            for (Map.Entry<Integer, NeededFields.Need> entry :
                    message.getValue().fields().entrySet()) {
                String what = "message " + message.getKey() + ", field " + entry.getKey();
                Field field = Factory.createField(message.getKey(), entry.getKey());
                assertNotEquals("unknown", field.getName(), what);
                NeededFields.Need need = entry.getValue();
                if (need.use() == NeededFields.Use.SDK) {
                    continue;
                }
                assertEquals(field.getType(), need.type(), what);
                compared++;
                if (need.type() == Fit.BASE_TYPE_STRING || need.use() == NeededFields.Use.UNASKED) {
                    continue;
                }
                for (long raw : new long[] {1, 7, 100, 126}) {
                    Field one = Factory.createField(message.getKey(), entry.getKey());
                    one.addRawValue(raw);
                    assertEquals(one.getDoubleValue(), raw / need.scale() - need.offset(), what + ", raw " + raw);
                }
            }
        }
        assertEquals(57, compared, "so that none is passed over");
    }

    /** These are what the SDK counts on in, and breaks off at where their type is not a number's. */
    @Test
    void everyFieldThatTheSdkCountsOnInIsListed() {
        List<String> missing = new ArrayList<>();
        int counts = 0;
        for (int message = 0; message < 1000; message++) {
            for (int number = 0; number < 256; number++) {
                Field field = Factory.createField(message, number);
                if (field != null && field.getIsAccumulated()) {
                    counts++;
                    NeededFields needed = NeededFields.of(message);
                    if (needed == null || needed.need(number) == null) {
                        missing.add(message + "." + number + " " + field.getName());
                    }
                }
            }
        }
        assertEquals(List.of(), missing);
        assertEquals(4, counts, "with the profile of 21.195.0");
    }
}
