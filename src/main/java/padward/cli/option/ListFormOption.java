package padward.cli.option;

import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;

/** How a list is printed: in columns, as JSON or as CSV. */
public final class ListFormOption {
    @ArgGroup(exclusive = true)
    private Form form = new Form();

    private static final class Form {
        @Option(names = "--json", description = "Prints JSON.")
        private boolean json;

        @Option(
                names = "--csv",
                description =
                        "Prints the list as CSV (RFC 4180) for a spreadsheet, and remarks as messages.")
        private boolean csv;
    }

    /** Whether it is JSON. */
    public boolean isJson() {
        return form.json;
    }

    /** Whether it is CSV. */
    public boolean isCsv() {
        return form.csv;
    }
}
