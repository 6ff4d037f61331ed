package padward.watch.registered;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import padward.watch.answer.CircuitSetupHold;

/** A register in the fabric, in words. */
final class FabricRegisterText {
    private FabricRegisterText() {}

    static List<String> sentences(FabricRegister line, String clock, double periodPs) {
        if (line.reason().isPresent()) {
            return List.of();
        }
        List<String> result = new ArrayList<>();
        result.add(
                line.net().name()
                        + " passes "
                        + (line.twoStages() ? "two registers" : "a register")
                        + " of "
                        + clock
                        + ", "
                        + line.cells().stream()
                                .map(c -> c.cell() + " on " + c.site())
                                .collect(Collectors.joining(" and "))
                        + (line.lastAtPad() ? " before its pad" : "")
                        + ", and comes out "
                        + (line.twoStages() ? "two periods" : "one period")
                        + " later.");
        if (line.twoStages()) {
            result.add(
                    "A pulse of "
                            + line.net().name()
                            + " that is shorter than a period of "
                            + clock
                            + " can be missed, each edge is shown up to a period late, and nets"
                            + " that change together can be shown a period apart.");
        }
        if (!line.missing().isEmpty()) {
            result.add(
                    "At the instrument: without "
                            + String.join(", ", line.missing())
                            + ", not stated.");
        }
        line.check().ifPresent(c -> result.addAll(timing(line, c, periodPs)));
        return result;
    }

    private static List<String> timing(
            FabricRegister line, CircuitSetupHold check, double periodPs) {
        List<String> result = new ArrayList<>(check.lines());
        if (line.twoStages()) {
            // It is what the first of the two is there for.
            result.removeIf(s -> s.startsWith("What comes from "));
            if (check.leastPeriodPs().isPresent() && periodPs > 0) {
                result.add(
                        String.format(
                                Locale.ROOT,
                                "Of each period, %.3f ns are left for the first register's output"
                                        + " to become 0 or 1 after it sampled a change.",
                                (periodPs - check.leastPeriodPs().get()) / 1000));
            }
        }
        return result;
    }
}
