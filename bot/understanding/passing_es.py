"""Spanish words that tell whether stuck food has passed, is still there, or sticks now and then."""

from __future__ import annotations

from bot.understanding.context import table

RESOLVED = table("""
logre_pasarla logre_pasarlo logre_tragarla y_luego_bajo ya_bajo ya_paso paso al_final por_fin finalmente lo_vomite
la_vomite lo_devolvi salio se_fue ya_estoy_bien ya_esta_bien me_lo_sacaron se_solto lo_escupi bajo_solo ya_se_fue
lo_saque ya_se_me_paso se_me_paso termino_bajando termino_pasando logre_tragarlo baje_con ya_pude ahora_bien ya_no
logro_pasar ya_se_destapo se_destapo se_desatasco consegui_tragarlo y_bajo y_paso despues_bajo luego_bajo luego_paso
despues_paso me_lo_quitaron ya_bien
""")
PRESENT = table("""
sigue siguen ahora_mismo todavia aun no_puedo no_baja no_pasa no_se_mueve no_consigo no_logro saliva babeando ayuda
no_ha_bajado no_ha_pasado no_me_baja no_me_pasa no_quiere no_sube
""")
SOMETIMES = table("""
a_veces de_vez_en_cuando muchas_veces seguido algunos_dias cada_comida casi_siempre varias_veces de_repente_si
""")
OVER_BY_DAY = table("""
ayer la_semana_pasada el_lunes el_martes el_miercoles el_jueves el_viernes el_sabado el_domingo el_otro_dia
esta_semana anteayer anteanoche
""")
HAPPENED = table("""
se_me_atasco se_atasco se_me_atoro se_atoro se_quedo me_atragante me_atore se_me_quedo se_me_trabo atragante atasco
atoro atraganto
""")
LONG_AGO = table("""
antes_se_me antes_me hace_años hace_meses hace_un_año de_niño de_niña cuando_era el_año_pasado el_mes_pasado
en_el_pasado en_enero en_febrero en_marzo en_abril en_mayo en_junio en_julio en_agosto en_septiembre en_octubre
en_noviembre en_diciembre hace_tiempo antes_del_tratamiento antes_de_empezar hace_mucho hace_semanas
""")

RESOLVED_ACTS = table("""
vomite_el vomite_la devolvi_el devolvi_la escupi_el escupi_la me_sacaron me_quitaron saque_el
""")
