"""The Habsburgs of Spain, whose genealogy is public history."""

import numpy as np
import pytest
from plain_pedigrees import at, family, plain_kinship

from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.pedigree.paths.paths import why_inbred

# Mother first. Written from general history; the published study followed more than 3,000
# ancestors through 16 generations, of which these are the nearest.
HOUSES = {
    "Charles II": ("Mariana of Austria", "Philip IV"),
    "Philip IV": ("Margaret of Austria", "Philip III"),
    "Mariana of Austria": ("Maria Anna of Spain", "Ferdinand III"),
    "Maria Anna of Spain": ("Margaret of Austria", "Philip III"),
    "Ferdinand III": ("Maria Anna of Bavaria 1574", "Ferdinand II"),
    "Ferdinand II": ("Maria Anna of Bavaria 1551", "Charles of Styria"),
    "Margaret of Austria": ("Maria Anna of Bavaria 1551", "Charles of Styria"),
    "Philip III": ("Anna of Austria 1549", "Philip II"),
    "Anna of Austria 1549": ("Maria of Spain", "Maximilian II"),
    "Philip II": ("Isabella of Portugal 1503", "Charles V"),
    "Maria of Spain": ("Isabella of Portugal 1503", "Charles V"),
    "Maximilian II": ("Anna of Bohemia", "Ferdinand I"),
    "Charles of Styria": ("Anna of Bohemia", "Ferdinand I"),
    "Anna of Austria 1528": ("Anna of Bohemia", "Ferdinand I"),
    "Maria Anna of Bavaria 1551": ("Anna of Austria 1528", "Albert V of Bavaria"),
    "William V of Bavaria": ("Anna of Austria 1528", "Albert V of Bavaria"),
    "Maria Anna of Bavaria 1574": ("Renata of Lorraine", "William V of Bavaria"),
    "Renata of Lorraine": ("Christina of Denmark", "Francis I of Lorraine"),
    "Christina of Denmark": ("Isabella of Austria", "Christian II"),
    "Isabella of Austria": ("Joanna of Castile", "Philip I"),
    "Charles V": ("Joanna of Castile", "Philip I"),
    "Ferdinand I": ("Joanna of Castile", "Philip I"),
    "Isabella of Portugal 1503": ("Maria of Aragon", "Manuel I"),
    "Joanna of Castile": ("Isabella I", "Ferdinand II of Aragon"),
    "Maria of Aragon": ("Isabella I", "Ferdinand II of Aragon"),
    "Isabella I": ("Isabella of Portugal 1428", "John II of Castile"),
    "John II of Castile": ("Catherine of Lancaster", "Henry III of Castile"),
    "Henry III of Castile": ("Eleanor of Aragon 1358", "John I of Castile"),
    "Ferdinand I of Aragon": ("Eleanor of Aragon 1358", "John I of Castile"),
    "Ferdinand II of Aragon": ("Juana Enriquez", "John II of Aragon"),
    "John II of Aragon": ("Eleanor of Alburquerque", "Ferdinand I of Aragon"),
    "Eleanor of Alburquerque": ("Beatrice of Portugal 1347", "Sancho of Alburquerque"),
    "Sancho of Alburquerque": ("Eleanor de Guzman", "Alfonso XI"),
    "Henry II of Castile": ("Eleanor de Guzman", "Alfonso XI"),
    "John I of Castile": ("Juana Manuel", "Henry II of Castile"),
    "Beatrice of Portugal 1347": ("Ines de Castro", "Peter I of Portugal"),
    "John I of Portugal": ("Teresa Lourenco", "Peter I of Portugal"),
    "Peter I of Portugal": ("Beatrice of Castile", "Afonso IV"),
    "Maria of Portugal 1313": ("Beatrice of Castile", "Afonso IV"),
    "Peter of Castile": ("Maria of Portugal 1313", "Alfonso XI"),
    "Constance of Castile": ("Maria de Padilla", "Peter of Castile"),
    "Catherine of Lancaster": ("Constance of Castile", "John of Gaunt"),
    "Philippa of Lancaster": ("Blanche of Lancaster", "John of Gaunt"),
    "Isabella of Portugal 1428": ("Isabella of Barcelos", "John of Reguengos"),
    "John of Reguengos": ("Philippa of Lancaster", "John I of Portugal"),
    "Isabella of Barcelos": ("Beatriz Pereira", "Afonso of Braganza"),
    "Afonso of Braganza": ("Ines Pires", "John I of Portugal"),
    "Manuel I": ("Beatrice of Portugal 1430", "Ferdinand of Viseu"),
    "Beatrice of Portugal 1430": ("Isabella of Barcelos", "John of Reguengos"),
    "Ferdinand of Viseu": ("Eleanor of Aragon 1402", "Edward of Portugal"),
    "Edward of Portugal": ("Philippa of Lancaster", "John I of Portugal"),
    "Eleanor of Aragon 1402": ("Eleanor of Alburquerque", "Ferdinand I of Aragon"),
    "Philip I": ("Mary of Burgundy", "Maximilian I"),
    "Maximilian I": ("Eleanor of Portugal 1434", "Frederick III"),
    "Eleanor of Portugal 1434": ("Eleanor of Aragon 1402", "Edward of Portugal"),
    "Frederick III": ("Cymburgis", "Ernest of Austria"),
    "Mary of Burgundy": ("Isabella of Bourbon", "Charles the Bold"),
    "Charles the Bold": ("Isabella of Portugal 1397", "Philip the Good"),
    "Isabella of Portugal 1397": ("Philippa of Lancaster", "John I of Portugal"),
    "Isabella of Bourbon": ("Agnes of Burgundy", "Charles I of Bourbon"),
    "Agnes of Burgundy": ("Margaret of Bavaria", "John the Fearless"),
    "Philip the Good": ("Margaret of Bavaria", "John the Fearless"),
    "Mary of Cleves": ("Margaret of Bavaria", "John the Fearless"),
    "Anna of Bohemia": ("Anne of Foix-Candale", "Vladislaus II"),
    "Vladislaus II": ("Elisabeth of Austria 1436", "Casimir IV"),
    "Anne of Foix-Candale": ("Catherine of Foix", "Gaston of Candale"),
    "Catherine of Foix": ("Eleanor of Navarre", "Gaston IV of Foix"),
    "Eleanor of Navarre": ("Blanche I of Navarre", "John II of Aragon"),
    "Albert V of Bavaria": ("Maria Jacobaea of Baden", "William IV of Bavaria"),
    "William IV of Bavaria": ("Kunigunde of Austria", "Albert IV of Bavaria"),
    "Kunigunde of Austria": ("Eleanor of Portugal 1434", "Frederick III"),
    "Maria Jacobaea of Baden": ("Elisabeth of the Palatinate", "Philip I of Baden"),
    "Philip I of Baden": ("Ottilie", "Christoph I of Baden"),
    "Christoph I of Baden": ("Catherine of Austria 1420", "Charles I of Baden"),
    "Catherine of Austria 1420": ("Cymburgis", "Ernest of Austria"),
    "Francis I of Lorraine": ("Renee of Montpensier", "Antoine of Lorraine"),
    "Antoine of Lorraine": ("Philippa of Guelders", "Rene II of Lorraine"),
    "Philippa of Guelders": ("Catherine of Bourbon", "Adolf of Guelders"),
    "Catherine of Bourbon": ("Agnes of Burgundy", "Charles I of Bourbon"),
    "Adolf of Guelders": ("Catherine of Cleves", "Arnold of Guelders"),
    "Catherine of Cleves": ("Mary of Cleves", "Adolph I of Cleves"),
    "Renee of Montpensier": ("Clara Gonzaga", "Gilbert of Montpensier"),
    "Gilbert of Montpensier": ("Gabrielle de la Tour", "Louis of Montpensier"),
    "Louis of Montpensier": ("Marie of Berry", "John I of Bourbon"),
    "Charles I of Bourbon": ("Marie of Berry", "John I of Bourbon"),
    "Alfonso XI": ("Constance of Portugal", "Ferdinand IV of Castile"),
    "Constance of Portugal": ("Elizabeth of Aragon", "Denis of Portugal"),
    "Afonso IV": ("Elizabeth of Aragon", "Denis of Portugal"),
    "Beatrice of Castile": ("Maria de Molina", "Sancho IV of Castile"),
    "Ferdinand IV of Castile": ("Maria de Molina", "Sancho IV of Castile"),
    "Elizabeth of Aragon": ("Constance of Sicily", "Peter III of Aragon"),
    "James II of Aragon": ("Constance of Sicily", "Peter III of Aragon"),
    "Frederick III of Sicily": ("Constance of Sicily", "Peter III of Aragon"),
    "Alfonso IV of Aragon": ("Blanche of Anjou", "James II of Aragon"),
    "Blanche of Anjou": ("Mary of Hungary", "Charles II of Naples"),
    "Eleanor of Anjou": ("Mary of Hungary", "Charles II of Naples"),
    "Peter II of Sicily": ("Eleanor of Anjou", "Frederick III of Sicily"),
    "Elizabeth of Sicily": ("Eleanor of Anjou", "Frederick III of Sicily"),
    "Peter IV of Aragon": ("Teresa of Entenza", "Alfonso IV of Aragon"),
    "Eleanor of Sicily": ("Elisabeth of Carinthia", "Peter II of Sicily"),
    "Eleanor of Aragon 1358": ("Eleanor of Sicily", "Peter IV of Aragon"),
    "Eleanor of Castile": ("Juana Manuel", "Henry II of Castile"),
    "Blanche I of Navarre": ("Eleanor of Castile", "Charles III of Navarre"),
    "John of Gaunt": ("Philippa of Hainault", "Edward III"),
    "John of Berry": ("Bonne of Luxembourg", "John II of France"),
    "Philip the Bold": ("Bonne of Luxembourg", "John II of France"),
    "Bonne of Luxembourg": ("Elizabeth of Bohemia", "John of Bohemia"),
    "Emperor Charles IV": ("Elizabeth of Bohemia", "John of Bohemia"),
    "Sigismund": ("Elizabeth of Pomerania", "Emperor Charles IV"),
    "Marie of Berry": ("Joanna of Armagnac", "John of Berry"),
    "John the Fearless": ("Margaret of Flanders", "Philip the Bold"),
    "Margaret of Bavaria": ("Margaret of Brieg", "Albert I of Bavaria"),
    "Joanna Sophia of Bavaria": ("Margaret of Brieg", "Albert I of Bavaria"),
    "Elizabeth of Luxembourg": ("Barbara of Cilli", "Sigismund"),
    "Albert II of Germany": ("Joanna Sophia of Bavaria", "Albert IV of Austria"),
    "Albert IV of Austria": ("Beatrice of Nuremberg", "Albert III of Austria"),
    "Albert III of Austria": ("Joanna of Pfirt", "Albert II of Austria"),
    "Leopold III of Austria": ("Joanna of Pfirt", "Albert II of Austria"),
    "Ernest of Austria": ("Viridis Visconti", "Leopold III of Austria"),
    "Viridis Visconti": ("Beatrice della Scala", "Bernabo Visconti"),
    "Elisabetta Visconti": ("Beatrice della Scala", "Bernabo Visconti"),
    "Elisabeth of Austria 1436": ("Elizabeth of Luxembourg", "Albert II of Germany"),
    "Albert IV of Bavaria": ("Anna of Brunswick", "Albert III of Bavaria"),
    "Albert III of Bavaria": ("Elisabetta Visconti", "Ernest of Bavaria"),
    "Ernest of Bavaria": ("Catherine of Gorizia", "John II of Bavaria"),
    "John II of Bavaria": ("Elizabeth of Sicily", "Stephen II of Bavaria"),
    "Albert I of Bavaria": ("Margaret of Hainault", "Louis IV"),
    "Stephen II of Bavaria": ("Beatrice of Silesia", "Louis IV"),
    "Casimir IV": ("Sophia of Halshany", "Jogaila"),
    "Jogaila": ("Uliana of Tver", "Algirdas"),
    "Alexandra of Lithuania": ("Uliana of Tver", "Algirdas"),
    "Cymburgis": ("Alexandra of Lithuania", "Siemowit IV"),
    "Charles I of Baden": ("Catherine of Lorraine", "Jacob I of Baden"),
    "Catherine of Lorraine": ("Margaret of the Palatinate", "Charles II of Lorraine"),
    "Isabella of Lorraine": ("Margaret of the Palatinate", "Charles II of Lorraine"),
    "Yolande of Lorraine": ("Isabella of Lorraine", "Rene of Anjou"),
    "Rene II of Lorraine": ("Yolande of Lorraine", "Frederick of Vaudemont"),
}


def test_the_nearest_ancestors_of_charles_give_most_of_his_published_f() -> None:
    """Alvarez, Ceballos & Quinteiro 2009, PLoS ONE 4:e5174: 0.254 from 16 generations.

    The part of the genealogy that stands here cannot give more, and gives all but 0.006 of it.
    """
    pedigree = family(HOUSES)
    charles, philip = at(pedigree, "Charles II", "Philip I").tolist()
    found = inbreeding(pedigree)
    assert 0.248 < found[charles] < 0.254
    assert 0.015 < found[philip] < 0.025
    assert found == pytest.approx(2 * np.diag(plain_kinship(pedigree)) - 1, abs=1e-12)
    assert generation_equivalents(pedigree)[charles] > 10


def test_thirty_thousand_paths_are_summed_by_ancestor() -> None:
    """His grandparents Philip III and Margaret add most; the parts sum to F."""
    pedigree = family(HOUSES)
    (charles,) = at(pedigree, "Charles II").tolist()
    why = why_inbred(pedigree, charles)
    assert why.paths == ()
    assert sum(part.paths for part in why.ancestors) > 30_000
    assert {part.ancestor for part in why.ancestors[:2]} == {"Philip III", "Margaret of Austria"}
    assert why.kinship == pytest.approx(inbreeding(pedigree)[charles], abs=1e-12)
