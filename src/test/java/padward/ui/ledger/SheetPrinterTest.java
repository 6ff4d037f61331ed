package padward.ui.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.HeadlessException;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.ServiceConfigurationError;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;

/** Printing says what came of it. */
class SheetPrinterTest {
    private static final BufferedImage PAGE = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB);

    @Test
    void whatWasPrintedIsSaid() {
        assertThat(SheetPrinter.send(List.of(PAGE), p -> true, () -> true))
                .isEqualTo("Sent 1 page to the printer.");
        assertThat(SheetPrinter.send(List.of(PAGE, PAGE), p -> true, () -> true))
                .isEqualTo("Sent 2 pages to the printer.");
        assertThat(SheetPrinter.send(List.of(PAGE), p -> true, () -> false))
                .contains("did not take");
    }

    @Test
    void nothingIsSentAfterAPageThatWasRefused() {
        List<BufferedImage> sent = new ArrayList<>();
        String said =
                SheetPrinter.send(
                        List.of(PAGE, PAGE, PAGE), p -> sent.add(p) && sent.size() < 2, () -> true);
        assertThat(said).startsWith("The printer refused page 2 of 3.");
        assertThat(sent).hasSize(2);
    }

    /** Errors and exceptions that escape would end in no word to the user at all. */
    @Test
    void printingThatCannotBeUsedIsSaid() {
        for (Supplier<String> broken :
                List.<Supplier<String>>of(
                        () -> {
                            throw new ServiceConfigurationError("no such provider");
                        },
                        () -> {
                            throw new NoClassDefFoundError("no such provider");
                        },
                        () -> {
                            throw new HeadlessException("no such provider");
                        })) {
            assertThat(SheetPrinter.orWhyNot(broken))
                    .startsWith("Printing does not work on this computer (")
                    .contains("no such provider")
                    .endsWith("Export the bench sheet as PDF, and print that elsewhere.");
        }
        assertThat(SheetPrinter.orWhyNot(() -> "Sent 1 page.")).isEqualTo("Sent 1 page.");
    }
}
