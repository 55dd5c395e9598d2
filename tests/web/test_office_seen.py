"""The office in a real browser: where the focus goes, what a narrow window shows, what keys do."""


def test_a_fault_stands_on_top_with_the_focus_and_beside_its_field(desk):
    page = desk.record("Saltmarsh stores", "04")
    page.fill("#why-return", "   ")
    page.click("button[value=return]")
    page.wait_for_selector("[role=alert]")
    assert page.evaluate("document.activeElement.getAttribute('role')") == "alert"
    assert page.inner_text("[role=alert]") == "Say why; the crew reads this."
    assert page.inner_text("#why-return-fault") == "Say why; the crew reads this."
    assert page.input_value("#why-return") == "   "
    page.reload()  # by address: a GET of where the form was sent
