import padward.api.AskableDesign;
import padward.api.Finding;
import padward.api.FinishedDesign;
import padward.api.FoundNet;
import padward.base.BadInput;
import java.nio.file.Path;
import java.util.List;

/** Lists the best pad for every net below a name, as it is and as if something were removed. */
public final class BestPads {
    private BestPads() {}

    /**
     * Arguments: the design's file, the start of the nets' names, and edits such as remove net x.
     */
    public static void main(String[] arguments) throws BadInput {
        FinishedDesign design = FinishedDesign.open(Path.of(arguments[0]));
        String[] edits = List.of(arguments).subList(2, arguments.length).toArray(String[]::new);
        print(design, arguments[1]);
        if (edits.length > 0) {
            System.out.println("With " + String.join(", ", edits) + ":");
            print(design.whatIf(edits), arguments[1]);
        }
    }

    private static void print(AskableDesign design, String start) throws BadInput {
        for (FoundNet net : design.nets()) {
            if (net.name().startsWith(start)) {
                Finding best = design.survey(net.name()).get(0);
                System.out.println(net.name() + ": " + best.kind() + " on " + best.pad().name());
            }
        }
    }
}
