package padward.cli.option;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import picocli.CommandLine.Option;

/** The option that shortens a list. */
public final class LimitOption {
    @Option(
            names = "--limit",
            paramLabel = "N",
            description = "Lists at most so many, and says how many are left out.")
    private Integer limit;

    /** The start of a list. */
    public <T> List<T> start(List<T> all) throws BadInput {
        if (limit != null && limit < 0) {
            throw new BadInput("--limit", "", "a number from 0", "" + limit);
        }
        return all.subList(0, all.size() - leftOut(all.size()));
    }

    /** How many of a list are left out. */
    public int leftOut(int all) {
        return limit == null ? 0 : Math.max(0, all - limit);
    }

    /** A line about what is left out. */
    public Optional<String> remark(int all) {
        int out = leftOut(all);
        return out == 0 ? Optional.empty() : Optional.of("… and " + out + " more.");
    }
}
