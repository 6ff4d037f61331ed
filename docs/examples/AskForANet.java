import padward.api.Finding;
import padward.api.FinishedDesign;
import padward.api.Unblocking;
import padward.base.BadInput;
import java.nio.file.Path;

/** Asks whether a net gets out to a pad, and prints what stands in the way. */
public final class AskForANet {
    private AskForANet() {}

    /** Arguments: the design's file, a net, a pad. */
    public static void main(String[] arguments) throws BadInput {
        FinishedDesign design = FinishedDesign.open(Path.of(arguments[0]));
        Finding finding = design.ask(arguments[1], arguments[2]);
        System.out.println(finding.sentence());
        switch (finding.kind()) {
            case OPEN, TAKES_PORT ->
                    finding.route()
                            .forEach(
                                    s ->
                                            System.out.println(
                                                    s.vertex() + " " + s.fromDriver().slowPs()));
            case BLOCKED -> {
                for (Unblocking option : finding.options()) {
                    System.out.println(String.join(" and ", option.obstacles()));
                    option.consequences().forEach(c -> System.out.println("  " + c));
                }
            }
            case NO_ROUTE -> System.out.println("No removal helps.");
        }
        finding.cautions().stream()
                .filter(c -> c.serious())
                .forEach(c -> System.out.println("Caution: " + c.text()));
    }
}
